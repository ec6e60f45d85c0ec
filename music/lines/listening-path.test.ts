import { describe, expect, it } from 'vitest';
import { chord, hit, meter, note, rest, ticksPerQuarter, voices } from '../../tests/support/score-builders.ts';
import { splitOf } from '../../tests/support/split-builders.ts';
import { lineFactsOf, suggestListeningPath } from './listening-path.ts';

const score = voices(
  meter(4, 4),
  [note('E4', 2), note('G4', 2)],
  [rest(1), note('C4', 1), note('B3', 2)],
  [note('C3', 2), note('G2', 2)],
  [rest(1), hit(3)],
);
const four = splitOf({ melody: ['n1', 'n5'], middle: ['n3', 'n6'], bass: ['n2', 'n7'], taps: ['n4'] });
const range = { startTicks: 0, endTicks: 4 * ticksPerQuarter };
const pathOf = (split: typeof four, over = range) => suggestListeningPath(split.lines, lineFactsOf(score, split, over));

describe('the facts of lines', () => {
  it('count pitched notes and hits and tell the range', () => {
    expect(lineFactsOf(score, four, range)).toEqual([
      { line: 'melody', pitchedNotes: 2, hits: 0, rangeSemitones: 3 },
      { line: 'middle', pitchedNotes: 2, hits: 0, rangeSemitones: 1 },
      { line: 'bass', pitchedNotes: 2, hits: 0, rangeSemitones: 5 },
      { line: 'taps', pitchedNotes: 0, hits: 1, rangeSemitones: 0 },
    ]);
  });
});

describe('a suggested listening path', () => {
  it('goes from the ground up, then pairs, then everybody, then singing', () => {
    expect(pathOf(four).map(({ kind, title }) => `${kind}: ${title}`)).toEqual([
      'hear: taps alone',
      'hear: bass alone',
      'hear: taps and bass together',
      'hear: melody alone',
      'hear: middle alone',
      'hear: melody and bass',
      'hear: melody and middle',
      'hear: middle and bass',
      'hear: Everybody',
      'hear: Everybody, melody forward',
      'echo: Echo the bass',
      'echo: Echo the melody',
      'reveal: Sing the melody from its first note',
      'fade: Keep the melody while it fades',
    ]);
  });

  it('names only lines that sound in the excerpt', () => {
    const late = pathOf(four, { startTicks: 2 * ticksPerQuarter, endTicks: 4 * ticksPerQuarter });
    expect(late.flatMap((step) => step.lines)).not.toContain('taps');
  });

  it('gives every step an id of its own', () => {
    const ids = pathOf(four).map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('asks nobody to sing what leaps over more than two octaves', () => {
    const wide = voices(meter(4, 4), [note('E2', 2), note('E5', 2)]);
    const split = splitOf({ melody: ['n1', 'n2'] });
    const path = suggestListeningPath(split.lines, lineFactsOf(wide, split, range));
    expect(path.map(({ kind }) => kind)).toEqual(['hear']);
  });

  it('knows no pairs, nobody together and no fading for a single line', () => {
    const one = voices(meter(4, 4), [chord(['C4', 'E4'], 2), note('D4', 2)]);
    const split = splitOf({ melody: ['n1', 'n2', 'n3'] });
    expect(suggestListeningPath(split.lines, lineFactsOf(one, split, range)).map(({ kind }) => kind)).toEqual([
      'hear',
      'echo',
      'reveal',
    ]);
  });

  it('is empty without lines', () => {
    expect(suggestListeningPath([], [])).toEqual([]);
  });
});
