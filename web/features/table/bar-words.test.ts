import { describe, expect, test } from 'vitest';
import { barId, noteId, type Score } from '../../../music/index.ts';
import { barsOfNotesWords } from './bar-words.ts';

const bars = [0, 1, 2, 3, 4].map((number) => ({
  id: barId(`b${number}`),
  label: String(number),
  ordinal: number + 1,
  isImplicit: number === 0,
}));
const notes = bars.map((bar, number) => ({ id: noteId(`n${number}`), bar: bar.id }));
const score = { bars, notes } as unknown as Score;

describe('the bars that notes stand in', () => {
  test.each([
    [[2], 'bar 2'],
    [[1, 2, 4], 'bars 1–2, 4'],
    [[0], 'the pickup'],
    [[0, 1, 2, 3], 'the pickup and bars 1–3'],
  ])('notes in %j', (numbers, words) => {
    expect(
      barsOfNotesWords(
        score,
        numbers.map((number) => noteId(`n${number}`)),
      ),
    ).toBe(words);
  });
});
