export { cycleA } from './cycle-a.ts';
export const cycleB = 1;
