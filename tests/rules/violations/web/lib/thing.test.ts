export const tested = 1;
