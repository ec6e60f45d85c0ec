export const webThing = 1;
