import { expect, it } from 'vitest';
import { stringWords } from './note-place.tsx';

it.each([
  [{ string: 2, fret: 3, isProposed: false }, 'string 2, fret 3'],
  [{ string: 2, fret: 3, isProposed: true }, 'proposed: string 2, fret 3'],
  [{ string: 6, fret: 0, isProposed: true }, 'proposed: string 6, open'],
])('tells where a note lies, and whether that is only proposed: %o', (place, words) => {
  expect(stringWords(place)).toBe(words);
});
