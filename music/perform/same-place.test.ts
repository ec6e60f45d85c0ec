import { expect, it } from 'vitest';
import { samePlaceIn } from './same-place.ts';
import { timeMapOf } from './time-map.ts';

const score = (quartersPerMinute: number) => ({
  tempos: [{ onsetTicks: 0, quartersPerMinute }],
  ticksPerQuarter: 1,
});
const printed = timeMapOf(score(60), [{ startTicks: 0, endTicks: 12 }]);
const unfolded = timeMapOf(score(60), [
  { startTicks: 0, endTicks: 8 },
  { startTicks: 4, endTicks: 12 },
]);

it('keeps the moment where nothing has changed', () => {
  expect(samePlaceIn(unfolded, structuredClone(unfolded), 9.5)).toBe(9.5);
});

it('goes to the first pass of a place that was played once, and back to it from any pass', () => {
  expect(samePlaceIn(unfolded, printed, 5)).toBe(5);
  expect(samePlaceIn(unfolded, printed, 9)).toBe(13);
  expect(samePlaceIn(printed, unfolded, 9.5)).toBe(5.5);
});

it('keeps the pass where only the tempo has changed', () => {
  const twice = timeMapOf(score(120), [
    { startTicks: 0, endTicks: 8 },
    { startTicks: 4, endTicks: 12 },
  ]);
  expect(samePlaceIn(twice, unfolded, 5)).toBe(2.5);
  expect(samePlaceIn(twice, unfolded, 9)).toBe(4.5);
});

it('stays within a performance that does not play the place', () => {
  const opening = timeMapOf(score(60), [{ startTicks: 0, endTicks: 4 }]);
  expect(samePlaceIn(opening, printed, 9)).toBe(4);
});
