import { describe, expect, it } from 'vitest';
import { line, meter, note } from '../../tests/support/score-builders.ts';
import type { Bar } from '../score/score.ts';
import { unfoldedWithin } from './unfolded.ts';

const twoFour = meter(2, 4);

/** What is played of the bars from `first` on, up to the end of `last`, told as bars from 1 in order of playing. */
function played(bars: readonly Partial<Bar>[], first: number, last: number): string {
  const score = line(
    bars.map((bar) => ({ meter: twoFour, ...bar })),
    ...bars.map(() => note('C4', 2)),
  );
  const [start, end] = [score.bars[first - 1]!, score.bars[last - 1]!];
  const excerpt = { startTicks: start.onsetTicks, endTicks: end.onsetTicks + end.lengthTicks };
  return unfoldedWithin(score, excerpt)
    .flatMap(({ startTicks, endTicks }) =>
      score.bars.flatMap(({ onsetTicks }, index) =>
        onsetTicks >= startTicks && onsetTicks < endTicks ? [index + 1] : [],
      ),
    )
    .join(' ');
}

const opens = { startsRepeat: true };
const closes = { repeatTimes: 2 };
const firstEnding = { endings: [1], repeatTimes: 2 };
const secondEnding = { endings: [2] };

describe('an excerpt with its repeats followed', () => {
  it.each([
    ['is played once where it has none', [{}, {}, {}], 2, 3, '2 3'],
    ['repeats what lies within it', [{}, opens, closes, {}], 1, 4, '1 2 3 2 3 4'],
    ['repeats what it consists of', [{}, opens, closes, {}], 2, 3, '2 3 2 3'],
    ['is played once within a repeat', [opens, {}, {}, closes], 2, 3, '2 3'],
    ['is played once where only the end of a repeat lies in it', [opens, {}, closes, {}], 2, 4, '2 3 4'],
    ['takes each ending in its time', [opens, {}, firstEnding, secondEnding, {}], 1, 5, '1 2 3 1 2 4 5'],
    ['comes back for the second ending', [opens, {}, firstEnding, secondEnding], 2, 4, '2 3 2 4'],
    ['does not come back for an ending that it has not', [opens, {}, firstEnding, secondEnding], 1, 2, '1 2'],
  ] as const)('%s', (_, bars, first, last, order) => {
    expect(played(bars, first, last)).toBe(order);
  });

  it('may begin and end within bars', () => {
    const bars = [{ meter: twoFour, ...opens }, { meter: twoFour, ...closes }, { meter: twoFour }];
    const score = line(bars, note('C4', 2), note('D4', 2), note('E4', 2));
    const quarter = score.ticksPerQuarter;
    expect(unfoldedWithin(score, { startTicks: 0, endTicks: 5 * quarter })).toEqual([
      { startTicks: 0, endTicks: 4 * quarter },
      { startTicks: 0, endTicks: 5 * quarter },
    ]);
    const late = { startTicks: quarter, endTicks: 5 * quarter };
    expect(unfoldedWithin(score, late)).toEqual([late]);
  });
});
