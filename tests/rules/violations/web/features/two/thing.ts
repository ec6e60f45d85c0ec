export const twoThing = 1;
