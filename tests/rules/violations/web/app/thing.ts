export const appThing = 1;
