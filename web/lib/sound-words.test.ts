import { describe, expect, it } from 'vitest';
import { levelWords, placeWords, toneWords } from './sound-words.ts';

describe('the words of sound', () => {
  it.each([
    [0, 'as it is'],
    [3, '+3 dB'],
    [-12, '−12 dB'],
  ])('tell the level %d', (levelDb, words) => expect(levelWords(levelDb)).toBe(words));

  it.each([
    [0, 'in the middle'],
    [-0.1, 'a little left'],
    [0.5, 'to the right'],
    [-1, 'far left'],
  ])('tell the place %d', (place, words) => expect(placeWords(place)).toBe(words));

  it.each([
    [0, 'as it is'],
    [-0.2, 'a little darker'],
    [1, 'brighter'],
  ])('tell the tone %d', (tone, words) => expect(toneWords(tone)).toBe(words));
});
