import { describe, expect, it } from 'vitest';
import { scoreFacts } from '../../../contract/index.ts';
import { factsOf, midiOf, readScoreFile, type Pitch } from '../../../music/index.ts';
import { twoGuitars } from '../../../tests/support/two-guitars.ts';
import { tuningWords } from '../../lib/tuning-words.ts';
import { changesWords, factRows, keyWords, ordinalWords, partWords } from './fact-words.ts';

const alters: Readonly<Record<string, number>> = { '♯': 1, '♭': -1 };
const pitchClass = (name: string): number =>
  midiOf({ step: name.charAt(0) as Pitch['step'], alter: alters[name.charAt(1)] ?? 0, octave: 4 }) % 12;

const bytes = new TextEncoder().encode(twoGuitars());
const read = readScoreFile(bytes, { fileName: 'x', firstNoteNumber: 1, firstBarNumber: 1 });
if (!read.ok) throw new Error('the test’s own score cannot be read');
const facts = scoreFacts.parse(factsOf(read.value.score));

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

  it('name a part, and tell it from another of its name', () => {
    const [guitar] = facts.parts;
    if (guitar === undefined) throw new Error('the test’s own score has no part');
    const parts = [guitar, { ...guitar, id: 'P2' }, { ...guitar, id: 'P3', name: '' }];
    expect(partWords('P1', facts)).toBe('High guitar');
    expect(parts.map(({ id }) => partWords(id, { ...facts, parts }))).toEqual([
      'High guitar (P1)',
      'High guitar (P2)',
      'Part P3',
    ]);
  });

  it('tell tuning and capo once where guitars share them, else part by part', () => {
    const rows = new Map(factRows(facts));
    expect(rows.get('Tuning')).toBe('E A D G B E, low to high');
    expect(rows.get('Capo')).toBe('High guitar: none; Low guitar: fret 2');
  });

  it('tell changes with their bars', () => {
    const meters: [number, string][] = [
      [1, '4/4'],
      [9, '3/4'],
    ];
    expect(changesWords(meters, (meter) => meter)).toBe('4/4, 3/4 from the 9th bar');
  });
});
