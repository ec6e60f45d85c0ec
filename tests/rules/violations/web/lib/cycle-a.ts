export { cycleB } from './cycle-b.ts';
export const cycleA = 1;
