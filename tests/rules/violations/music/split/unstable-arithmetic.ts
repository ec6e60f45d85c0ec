export const unstable = Math.sin(1) + 2 ** 0.5;
