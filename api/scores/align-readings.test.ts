import { describe, expect, it } from 'vitest';
import { readScoreFile, type FileSource, type Score } from '../../music/index.ts';
import { tinyScore } from '../../tests/support/tiny-score.ts';
import { alignReadings } from './align-readings.ts';

function read(bars: readonly string[], firstNoteNumber: number, choice: Partial<FileSource> = {}): Score {
  const source = { fileName: 'x', firstNoteNumber, firstBarNumber: firstNoteNumber, ...choice };
  const result = readScoreFile(tinyScore(bars), source);
  if (!result.ok) throw new Error('the test’s own score cannot be read');
  return result.value.score;
}

const namesOf = (present: Score, next: Score): (string | undefined)[] => {
  const { heads } = alignReadings(present, next);
  return next.notes.map(({ id }) => heads.get(id));
};
const bars = ['E2 G3 B3 E4', 'A2 C4 E4 A4', 'E2 G3 B3 E4'];

describe('two readings of one file', () => {
  it('have the same notes at another octave', () => {
    const present = read(bars, 1);
    expect(namesOf(present, read(bars, 100, { octave: -2 }))).toEqual(present.notes.map(({ id }) => id));
  });

  it.each([
    ['in another order within the bar', ['G3 E2 B3 E4', ...bars.slice(1)], ['n2', 'n1', 'n3', 'n4']],
    ['moved over a bar line', ['- G3 B3 E4', 'E2 C4 E4 A4', bars[2] ?? ''], ['n2', 'n3', 'n4', 'n1']],
  ])('and those that are counted elsewhere: %s', (_, moved, names) => {
    expect(namesOf(read(bars, 1), read(moved, 100)).slice(0, 4)).toEqual(names);
  });

  it.each([
    ['fewer', ['E2 G3 B3 E4', '- C4 E4 A4', 'E2 G3 B3 -']],
    ['more', ['E2 G3 B3 E4', 'A2 C4 E4 A4', 'E2 E2 B3 E4']],
  ])('each to the nearest where there are %s, no name twice', (_, other) => {
    const [present, next] = [read(bars, 1), read(other, 100)];
    const names = namesOf(present, next).filter((name) => name !== undefined);
    expect(new Set(names).size).toBe(names.length);
    expect(names).toHaveLength(_ === 'fewer' ? 10 : 11);
    const onset = (score: Score, id: string | undefined) => score.notes.find((note) => note.id === id)?.onsetTicks;
    const { heads } = alignReadings(present, next);
    for (const { id, onsetTicks } of next.notes)
      if (heads.has(id)) expect(onset(present, heads.get(id))).toBe(onsetTicks);
  });

  it('give the bars their names by their place', () => {
    const { bars: names } = alignReadings(read(bars, 1), read(['C3 - - -', 'C3 - - -', 'C3 - - -'], 100));
    expect([...names]).toEqual([
      ['b100', 'b1'],
      ['b101', 'b2'],
      ['b102', 'b3'],
    ]);
  });
});
