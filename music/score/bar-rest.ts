import type { WrittenEvent } from './written.ts';

/** The one rest of a bar in which nothing sounds. */
export const barRest = (lengthTicks: number): WrittenEvent => ({
  onsetTicks: 0,
  lengthTicks,
  value: { type: 'whole', dots: 0, tuplet: null },
  tupletEdge: null,
  innerTuplet: null,
  isBarRest: true,
  heads: [],
  graces: [],
});
