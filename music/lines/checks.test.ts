import { describe, expect, it } from 'vitest';
import { barId } from '../basis/ids.ts';
import { chord, line, meter, note, rest, voices } from '../../tests/support/score-builders.ts';
import { allOn, splitOf } from '../../tests/support/split-builders.ts';
import { checkLines, looseNotes } from './checks.ts';
import { lineNotes } from './line-notes.ts';

const bar = meter(4, 4);
const told = (findings: ReturnType<typeof checkLines>): readonly string[] =>
  findings.map(({ code, lines, notes }) => [code, ...lines, ...notes].join(' '));

describe('checks of a split', () => {
  it('[R25] two notes at once in a line for one voice', () => {
    const score = line(bar, chord(['C4', 'E4'], 1), note('D4', 3));
    expect(told(checkLines(score, allOn(score)))).toEqual(['two-at-once melody n1 n2']);
  });

  it('[R25] but not in an accompaniment', () => {
    const score = line(bar, chord(['C4', 'E4'], 4));
    expect(checkLines(score, allOn(score, 'strums'))).toEqual([]);
  });

  it('[R26] a leap of more than two octaves', () => {
    const score = line(bar, note('C3', 1), note('C5', 1), note('C3', 1), note('D5', 1));
    expect(told(checkLines(score, allOn(score)))).toEqual(['wide-leap melody n3 n4']);
  });

  it('[R27] a note on no line, or on a line that is put away', () => {
    const score = line(bar, note('C4', 1), note('D4', 1), note('E4', 2));
    const split = splitOf({ melody: ['n1'], bass: ['n2'] });
    const retired = { ...split, lines: split.lines.map((one) => ({ ...one, isRetired: one.name === 'bass' })) };
    expect(looseNotes(score, retired).map(({ id }) => id)).toEqual(['n2', 'n3']);
    expect(told(checkLines(score, retired))).toEqual(['on-no-line n2', 'on-no-line n3']);
  });

  it('[R28] the first moment of each crossing of two lines', () => {
    const upper = [note('E4', 1), note('C4', 1), note('C4', 1), note('E4', 1)];
    const lower = [note('D4', 4)];
    const score = voices(bar, upper, lower);
    const split = splitOf({ melody: ['n1', 'n3', 'n4', 'n5'], middle: ['n2'] });
    const [finding, ...others] = checkLines(score, split);
    expect(others).toEqual([]);
    expect(finding).toMatchObject({ code: 'lines-cross', lines: ['melody', 'middle'], notes: ['n3', 'n2'] });
    expect(finding!.where).toMatchObject({ kind: 'music', barOrdinal: 1, beat: 2 });
  });

  it('[R28] a rest between them is no crossing', () => {
    const score = voices(bar, [note('C4', 1), rest(3)], [rest(1), note('D4', 3)]);
    expect(checkLines(score, splitOf({ melody: ['n1'], middle: ['n2'] }))).toEqual([]);
  });
});

describe('the notes of a line', () => {
  it('come in time order, with every line that they are on, held to a range', () => {
    const score = line(bar, note('C4', 1), note('D4', 1), note('E4', 2), note('F4', 4));
    const split = splitOf({ melody: ['n1', 'n2', 'n4'], bass: ['n2'] });
    const [melody] = split.lines;
    expect(lineNotes(score, split, melody!.id).map(({ note: found, lines }) => [found.id, ...lines])).toEqual([
      ['n1', 'melody'],
      ['n2', 'bass', 'melody'],
      ['n4', 'melody'],
    ]);
    const range = { startTicks: score.ticksPerQuarter, endTicks: 4 * score.ticksPerQuarter };
    expect(lineNotes(score, split, melody!.id, range).map(({ note: found }) => found.id)).toEqual(['n2']);
    expect(score.bars.map(({ id }) => id)).toEqual(['b1', 'b2'].map(barId));
  });
});
