import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { line, meter, note, ticksPerQuarter } from '../../../tests/support/score-builders.ts';
import { barId } from '../../../music/index.ts';
import { barsWithin, rowsOf, type RowBar } from './rows.ts';

const barsOf = (lengths: readonly number[]): readonly RowBar[] => {
  let at = 0;
  return lengths.map((length, index) => ({
    bar: barId(`b${index}`),
    label: String(index),
    startTicks: at,
    endTicks: (at += length),
  }));
};

describe('rows', () => {
  it('cuts the first and the last bar where the excerpt begins and ends', () => {
    const score = line(meter(4, 4), note('C4', 4), note('C4', 4), note('C4', 4));
    const bars = barsWithin(score, { startTicks: 3 * ticksPerQuarter, endTicks: 9 * ticksPerQuarter });
    expect(bars.map((bar) => (bar.endTicks - bar.startTicks) / ticksPerQuarter)).toEqual([1, 4, 1]);
  });

  it('lays eight bars that fit six to a row as four and four', () => {
    expect(rowsOf(barsOf([4, 4, 4, 4, 4, 4, 4, 4]), 25).map((row) => row.bars.length)).toEqual([4, 4]);
  });

  it('gives a bar that is too long a row of its own', () => {
    expect(rowsOf(barsOf([4, 30, 4]), 10).map((row) => row.bars.length)).toEqual([1, 1, 1]);
  });

  it('keeps every bar once and in order, no row longer than it may be', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 8 }), { minLength: 1, maxLength: 40 }),
        fc.integer({ min: 8, max: 60 }),
        (lengths, capacity) => {
          const bars = barsOf(lengths);
          const rows = rowsOf(bars, capacity);
          expect(rows.flatMap((row) => row.bars)).toEqual(bars);
          expect(rows.every((row) => row.endTicks - row.startTicks <= capacity)).toBe(true);
        },
      ),
    );
  });
});
