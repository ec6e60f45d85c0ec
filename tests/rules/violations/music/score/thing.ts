export const scoreThing = 1;
