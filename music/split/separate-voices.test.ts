import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { separateVoices } from './separate-voices.ts';
import type { VoiceNote } from './voice-note.ts';

const ticksPerQuarter = 4;
const notesOf = (...rows: readonly (readonly [onset: number, length: number, midi: number])[]): readonly VoiceNote[] =>
  rows.map(([onsetTicks, lengthTicks, midi]) => ({ onsetTicks, lengthTicks, midi }));

const anyNote = fc.record({
  onsetTicks: fc.integer({ min: 0, max: 40 }),
  lengthTicks: fc.integer({ min: 0, max: 8 }),
  midi: fc.integer({ min: 40, max: 80 }),
});
const anyNotes = fc.array(anyNote, { maxLength: 40 });
const runs = { seed: 7, numRuns: 60 };

describe('separateVoices on small textures', () => {
  it.each([
    [
      'a tune over held notes',
      notesOf([0, 4, 64], [0, 8, 48], [4, 4, 65], [8, 4, 67], [8, 8, 43], [12, 4, 65]),
      undefined,
      '010010',
    ],
    [
      'two lines that cross by step',
      notesOf([0, 2, 67], [0, 2, 60], [2, 2, 65], [2, 2, 62], [4, 2, 64], [4, 2, 64], [6, 2, 62], [6, 2, 65]),
      2,
      undefined,
    ],
    ['a chord over a bass', notesOf([0, 4, 64], [0, 4, 60], [0, 8, 40], [4, 4, 65], [4, 4, 62]), 2, '00100'],
    ['one note', notesOf([0, 4, 60]), undefined, '0'],
    ['no notes', [], undefined, ''],
  ])('%s', (_, notes, lineCount, labels) => {
    const found = separateVoices(notes, { ticksPerQuarter, lineCount });
    expect(found.labels).toHaveLength(notes.length);
    if (labels !== undefined) expect(found.labels.join('')).toBe(labels);
  });

  it('gives the twins of a double-stemmed unison two lines', () => {
    const notes = notesOf(
      [0, 8, 48],
      [0, 2, 48],
      [2, 2, 55],
      [4, 2, 60],
      [6, 2, 55],
      [8, 8, 50],
      [8, 2, 50],
      [10, 2, 57],
      [12, 2, 62],
    );
    const { labels, lineCount } = separateVoices(notes, { ticksPerQuarter });
    expect(lineCount).toBe(2);
    expect([labels[0] === labels[1], labels[5] === labels[6], labels[0] === labels[5]]).toEqual([false, false, true]);
  });

  it('answers to forty notes at once', () => {
    const notes = Array.from({ length: 40 }, (_, index) => ({ onsetTicks: 0, lengthTicks: 4, midi: 30 + index }));
    expect(separateVoices(notes, { ticksPerQuarter, lineCount: 4 }).labels).toHaveLength(40);
  });

  it('takes the number of lines at its word', () => {
    const notes = notesOf([0, 4, 72], [0, 4, 64], [0, 4, 48], [4, 4, 71], [4, 4, 62], [4, 4, 43]);
    for (const lineCount of [1, 2, 3])
      expect(new Set(separateVoices(notes, { ticksPerQuarter, lineCount }).labels).size).toBe(lineCount);
  });
});

describe('separateVoices on any notes', () => {
  it('gives each note one label below the number of lines and a confidence between 0 and 1', () => {
    fc.assert(
      fc.property(anyNotes, (notes) => {
        const { labels, confidences, lineCount } = separateVoices(notes, { ticksPerQuarter });
        expect(labels).toHaveLength(notes.length);
        expect(labels.every((label) => Number.isInteger(label) && label >= 0 && label < lineCount)).toBe(true);
        expect(confidences.every((confidence) => confidence >= 0 && confidence <= 1)).toBe(true);
      }),
      runs,
    );
  });

  it('does not depend on the order of the input', () => {
    fc.assert(
      fc.property(anyNotes, fc.integer(), (notes, seed) => {
        const order = notes
          .map((_, index) => index)
          .sort((a, b) => (Math.imul(a + 1, seed | 1) | 0) - (Math.imul(b + 1, seed | 1) | 0));
        const shuffled = separateVoices(
          order.map((index) => notes[index]!),
          { ticksPerQuarter },
        );
        const straight = separateVoices(notes, { ticksPerQuarter });
        const named = (label: number, note: VoiceNote): string =>
          `${note.onsetTicks} ${note.lengthTicks} ${note.midi} on ${label}`;
        expect(shuffled.labels.map((label, place) => named(label, notes[order[place]!]!)).sort()).toEqual(
          straight.labels.map((label, index) => named(label, notes[index]!)).sort(),
        );
      }),
      runs,
    );
  });

  it('gives the same labels an octave higher', () => {
    fc.assert(
      fc.property(anyNotes, (notes) => {
        const higher = notes.map((note) => ({ ...note, midi: note.midi + 12 }));
        expect(separateVoices(higher, { ticksPerQuarter })).toEqual(separateVoices(notes, { ticksPerQuarter }));
      }),
      runs,
    );
  });

  it('never overrides a pin', () => {
    fc.assert(
      fc.property(
        fc.array(anyNote, { minLength: 1, maxLength: 40 }),
        fc.array(fc.tuple(fc.nat(), fc.integer({ min: 0, max: 3 })), { maxLength: 12 }),
        (notes, drawn) => {
          const pins = new Map(drawn.map(([index, label]) => [index % notes.length, label]));
          const { labels } = separateVoices(notes, { ticksPerQuarter, lineCount: 4, pins });
          for (const [index, label] of pins) expect(labels[index]).toBe(label);
        },
      ),
      runs,
    );
  });
});
