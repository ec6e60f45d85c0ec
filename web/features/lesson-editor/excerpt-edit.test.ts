import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ticksOfExcerpt } from '../../../music/index.ts';
import { line, meter, note, pickup } from '../../../tests/support/score-builders.ts';
import { beatAt, beatsOf, firstBars, placeAt, withEnd, withStart } from './excerpt-edit.ts';

const score = line(pickup(meter(4, 4), 1), note('C4', 1), ...Array.from({ length: 6 }, () => note('D4', 4)));

describe('choosing an excerpt', () => {
  it('counts the beats of a bar by its own length', () => {
    expect(score.bars.slice(0, 2).map((bar) => beatsOf(score, bar))).toEqual([[1], [1, 2, 3, 4]]);
  });

  it('finds the beat that it placed, and the end', () => {
    for (const beat of [1, 2, 2.5, 4, null]) expect(beatAt(score, placeAt(score, score.bars[2]!, beat))).toBe(beat);
  });

  it('begins with the first four bars', () => {
    expect(firstBars(score)).toEqual({
      from: placeAt(score, score.bars[0]!, 1),
      to: placeAt(score, score.bars[3]!, null),
    });
    expect(firstBars({ ...score, bars: [] })).toBeNull();
  });

  it('always keeps something between beginning and end', () => {
    const bar = fc.integer({ min: 0, max: score.bars.length - 1 });
    const beat = fc.integer({ min: 1, max: 4 });
    const move = fc.tuple(fc.boolean(), bar, fc.option(beat));
    fc.assert(
      fc.property(fc.array(move, { maxLength: 12 }), (moves) => {
        let excerpt = firstBars(score)!;
        for (const [isStart, index, at] of moves) {
          const chosen = score.bars[index]!;
          const held = at === null ? null : Math.min(at, beatsOf(score, chosen).length);
          excerpt = isStart ? withStart(score, excerpt, chosen, held ?? 1) : withEnd(score, excerpt, chosen, held);
          expect(ticksOfExcerpt(score, excerpt)).not.toBeNull();
        }
      }),
    );
  });
});
