import { describe, expect, test } from 'vitest';
import { setUpWords } from './tuning-words.ts';

/** Strings from the highest, as MIDI numbers; standard guitar tuning is common practice, no source. */
const usual = [64, 59, 55, 50, 45, 40];
const dropped = [64, 59, 55, 50, 45, 38];

describe('what a player sets up', () => {
  test.each([
    ['the usual tuning without a capo asks for nothing', [{ tuning: usual, capoFret: 0 }], ''],
    ['a dropped sixth string is named', [{ tuning: dropped, capoFret: 0 }], 'Tuning D A D G B E'],
    ['a capo alone', [{ tuning: usual, capoFret: 2 }], 'capo 2'],
    [
      'tuning and capo of a tablature part of its own',
      [
        { tuning: null, capoFret: 0 },
        { tuning: dropped, capoFret: 3 },
      ],
      'Tuning D A D G B E · capo 3',
    ],
    ['an instrument without strings', [{ tuning: null, capoFret: 0 }], ''],
  ])('%s', (_, parts, words) => {
    expect(setUpWords(parts)).toBe(words);
  });
});
