import { expect, it } from 'vitest';
import type { ClickBeat } from '../perform/performance.ts';
import { clicksWithin } from './clicks.ts';

const beat = (atSeconds: number, lengthSeconds: number, accent: ClickBeat['accent'] = 'beat'): ClickBeat => ({
  atSeconds,
  lengthSeconds,
  accent,
});
const halves = (beats: readonly ClickBeat[], from: number, to: number): number[] =>
  clicksWithin(beats, from, to).flatMap((click) => (click.subdivisions.includes(2) ? [click.atSeconds] : []));

it('keeps the parts of a beat that began before the stretch, and none from its end on', () => {
  const beats = [beat(0, 1, 'bar'), beat(1, 1), beat(2, 1)];
  expect(halves(beats, 0.5, 2)).toEqual([0.5, 1, 1.5]);
});

it('loses the parts for which a beat that is cut short has no time', () => {
  expect(halves([beat(0, 1), beat(0.4, 1), beat(1.4, 1)], 0, 1.6)).toEqual([0, 0.4, 0.9, 1.4]);
});
