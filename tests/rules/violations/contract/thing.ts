export const contractThing = 1;
