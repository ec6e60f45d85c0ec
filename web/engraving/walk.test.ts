import { expect, test } from 'vitest';
import { barId, lineId, noteId, type Bar, type Mark, type SoundingNote } from '../../music/index.ts';
import { beatOf, beatWords, noteWords } from './place-words.ts';
import { nextWanted, stepFrom, type Step } from './walk.ts';

const note = (id: string, onsetTicks: number, soundingMidi: number): SoundingNote => ({
  id: noteId(id),
  bar: barId('b1'),
  onsetTicks,
  lengthTicks: 4,
  sound: {
    kind: 'pitched',
    written: { step: 'C', alter: 0, octave: 4 },
    sounding: { step: 'E', alter: 0, octave: 4 },
    soundingMidi,
  },
  heads: [],
  voices: [],
  fingerboard: null,
  techniques: [],
  pluckingFinger: null,
  frettingFinger: null,
});
const mark = (line: string): Mark => ({ lines: [lineId(line)], from: 'person', confidence: null, revision: 1 });
const notes = [note('a', 0, 64), note('b', 0, 40), note('c', 4, 60), note('d', 8, 65), note('e', 8, 43)];
const split = {
  marks: new Map(
    [
      ['a', 'top'],
      ['b', 'low'],
      ['d', 'top'],
      ['e', 'low'],
    ].map(([id, line]) => [noteId(id as string), mark(line as string)]),
  ),
};
const stepped = (from: string, step: Step): string =>
  stepFrom(notes, split, notes.find((one) => one.id === from) as SoundingNote, step).id;

test.each([
  ['a', 'next', 'd'],
  ['b', 'next', 'e'],
  ['e', 'previous', 'b'],
  ['c', 'next', 'c'],
  ['a', 'lower', 'b'],
  ['b', 'higher', 'a'],
  ['a', 'higher', 'a'],
  ['a', 'nextSlice', 'c'],
  ['d', 'first', 'a'],
  ['a', 'last', 'e'],
] as const)('from %s, %s leads to %s', (from, step, to) => {
  expect(stepped(from, step)).toBe(to);
});

test('the walk to the next wanted note goes round', () => {
  const isLoose = (one: SoundingNote) => !split.marks.has(one.id);
  expect(nextWanted(notes, noteId('d'), isLoose)?.id).toBe('c');
  expect(nextWanted(notes, null, isLoose)?.id).toBe('c');
  expect(nextWanted(notes, null, () => false)).toBeNull();
});

const bar = (changes: Partial<Bar>): Bar => ({
  id: barId('b1'),
  ordinal: 1,
  label: '1',
  onsetTicks: 0,
  lengthTicks: 16,
  meter: { beats: [4], beatUnit: 4 },
  key: { fifths: 0, mode: null },
  isImplicit: false,
  startsRepeat: false,
  repeatTimes: 0,
  endings: [],
  jumps: [],
  rehearsalMark: null,
  ...changes,
});

test('beats count in the meter’s unit, and a pickup counts towards its bar line', () => {
  expect(beatOf({ ticksPerQuarter: 4 }, bar({}), 6)).toBe(2.5);
  expect(beatOf({ ticksPerQuarter: 4 }, bar({ meter: { beats: [6], beatUnit: 8 }, lengthTicks: 12 }), 6)).toBe(4);
  expect(beatOf({ ticksPerQuarter: 4 }, bar({ isImplicit: true, lengthTicks: 4 }), 0)).toBe(4);
  expect([2, 2.5, 3.3333, 1.75].map(beatWords)).toEqual(['2', '2½', '3⅓', '1¾']);
});

test('a note is said with its bar, beat, sound and line', () => {
  const score = { bars: [bar({ label: '3' })], ticksPerQuarter: 4 } as unknown as Parameters<typeof noteWords>[0];
  const melody = {
    id: lineId('top'),
    name: 'Melody',
    role: 'melody',
    dye: 'madder',
    letter: 'M',
    orderKey: 'a',
    isRetired: false,
  } as const;
  expect(noteWords(score, note('x', 4, 64), [melody])).toBe('bar 3, beat 2, E4, melody');
  expect(noteWords(score, note('x', 4, 64), [])).toBe('bar 3, beat 2, E4, on no line');
});
