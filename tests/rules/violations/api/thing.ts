export const apiThing = 1;
