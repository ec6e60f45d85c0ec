import { describe, expect, it } from 'vitest';
import { midiOf, type Pitch } from '../../../music/index.ts';
import { tuningWords } from '../../lib/tuning-words.ts';
import { changesWords, keyWords, ordinalWords } from './fact-words.ts';

const alters: Readonly<Record<string, number>> = { '♯': 1, '♭': -1 };
const pitchClass = (name: string): number =>
  midiOf({ step: name.charAt(0) as Pitch['step'], alter: alters[name.charAt(1)] ?? 0, octave: 4 }) % 12;

describe('the words of facts', () => {
  it('name the major key of every signature: each sharp is a fifth up from C, each flat a fifth down', () => {
    // Common practice, no source.
    for (let fifths = -7; fifths <= 7; fifths += 1) {
      const name = keyWords(fifths).split(' ')[0] ?? '';
      expect(pitchClass(name), name).toBe((7 * fifths + 12 * 7) % 12);
    }
  });

  it('count sharps and flats', () => {
    expect([keyWords(0), keyWords(1), keyWords(-3)]).toEqual([
      'C major or its minor (no sharps or flats)',
      'G major or its minor (1 sharp)',
      'E♭ major or its minor (3 flats)',
    ]);
  });

  it('name a tuning from the lowest string', () => {
    expect(tuningWords([64, 59, 55, 50, 45, 38])).toBe('D A D G B E');
  });

  it.each([
    [1, '1st'],
    [2, '2nd'],
    [3, '3rd'],
    [11, '11th'],
    [22, '22nd'],
    [113, '113th'],
  ])('count %i', (place, words) => expect(ordinalWords(place)).toBe(words));

  it('tell changes with their bars', () => {
    const meters: [number, string][] = [
      [1, '4/4'],
      [9, '3/4'],
    ];
    expect(changesWords(meters, (meter) => meter)).toBe('4/4, 3/4 from the 9th bar');
  });
});
