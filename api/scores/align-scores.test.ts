import { describe, expect, it } from 'vitest';
import { readNormalised, readScoreFile, type Score } from '../../music/index.ts';
import { tinyScore } from '../../tests/support/tiny-score.ts';
import { alignScores, renamedXml } from './align-scores.ts';

const read = (bars: readonly string[], first: number): { score: Score; normalisedXml: string } => {
  const result = readScoreFile(tinyScore(bars), { fileName: 'x', firstNoteNumber: first, firstBarNumber: first });
  if (!result.ok) throw new Error('the test’s own score cannot be read');
  return result.value;
};
const present = read(['E2 G3 B3 E4', 'A2 C4 E4 A4', 'E2 G3 B3 E4'], 1);
const barsKept = (bars: readonly string[]): string[] => {
  const { score } = read(bars, 100);
  const { bars: names } = alignScores(present.score, score);
  return score.bars.map((bar) => names.get(bar.id) ?? 'new');
};
const notesKept = (bars: readonly string[]): number => alignScores(present.score, read(bars, 100).score).heads.size;

describe('aligning a new reading with the present score', () => {
  it.each([
    ['nothing changed', ['E2 G3 B3 E4', 'A2 C4 E4 A4', 'E2 G3 B3 E4'], ['b1', 'b2', 'b3'], 12],
    ['a bar put in front', ['C3 C3 C3 C3', 'E2 G3 B3 E4', 'A2 C4 E4 A4', 'E2 G3 B3 E4'], ['new', 'b1', 'b2', 'b3'], 12],
    ['a bar taken out', ['E2 G3 B3 E4', 'E2 G3 B3 E4'], ['b1', 'b3'], 8],
    ['one note changed', ['E2 G3 B3 E4', 'A2 C4 F4 A4', 'E2 G3 B3 E4'], ['b1', 'b2', 'b3'], 11],
    ['a bar put behind', ['E2 G3 B3 E4', 'A2 C4 E4 A4', 'E2 G3 B3 E4', 'D3 - - -'], ['b1', 'b2', 'b3', 'new'], 12],
    ['other music', ['C3 - - -'], ['b1'], 0],
  ])('finds bars and notes again: %s', (_, bars, kept, noteCount) => {
    expect(barsKept(bars)).toEqual(kept);
    expect(notesKept(bars)).toBe(noteCount);
  });

  it('gives no present name to two', () => {
    const { heads, bars } = alignScores(present.score, read(['E2 E2 E2 E2', 'E2 G3 B3 E4', 'A2 C4 E4 A4'], 100).score);
    for (const names of [heads, bars]) expect(new Set(names.values()).size).toBe(names.size);
  });

  it('renames so that the document read again carries the present names', () => {
    const next = read(['C3 C3 C3 C3', 'E2 G3 B3 E4', 'A2 C4 E4 A4'], 100);
    const { value } = readNormalised(renamedXml(next.normalisedXml, alignScores(present.score, next.score)));
    expect(value.bars.map(({ id }) => id)).toEqual(['b100', 'b1', 'b2']);
    expect(value.notes.slice(4).map(({ id }) => id)).toEqual(present.score.notes.slice(0, 8).map(({ id }) => id));
  });
});
