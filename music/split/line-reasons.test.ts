import { describe, expect, it } from 'vitest';
import { hit, meter, note, voices } from '../../tests/support/score-builders.ts';
import { splitOf } from '../../tests/support/split-builders.ts';
import { rolesOfLines } from './line-reasons.ts';

const bar = meter(4, 4);

describe('what lines are by their notes', () => {
  const score = voices(bar, [note('C5', 2), note('D5', 2)], [note('C3', 2), note('G2', 2)], [hit(2), hit(2)]);
  const told = (split: ReturnType<typeof splitOf>) =>
    [...rolesOfLines(score, split)].map(([line, { role, reason }]) => `${line}: ${role}, ${reason}`);

  it('by height and by hits, whatever the lines are called', () => {
    const split = splitOf({ taps: ['n3', 'n6'], bass: ['n1', 'n4'], melody: ['n2', 'n5'] });
    expect(told(split)).toEqual([
      'bass: melody, the highest line',
      'melody: bass, the lowest line',
      'taps: percussion, taps and other hits alone',
    ]);
  });

  it('true for the present marks: lines without notes and retired lines are passed over', () => {
    const split = splitOf({ melody: ['n1', 'n4'], bass: ['n2', 'n5'], middle: [] });
    const retired = { ...split, lines: split.lines.map((one) => ({ ...one, isRetired: one.name === 'bass' })) };
    expect(told(retired)).toEqual(['melody: melody, the highest line']);
  });
});
