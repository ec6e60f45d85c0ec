export const impure = [Date.now(), new Date(), Math.random()];
