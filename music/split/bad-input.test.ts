import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { anyTwoVoices } from '../../tests/support/any-score.ts';
import { fixedSeed } from '../../tests/support/property-seed.ts';
import { chord, meter, note, voices } from '../../tests/support/score-builders.ts';
import { lineNamed } from '../../tests/support/split-builders.ts';
import { lineId, noteId, type LineId, type NoteId } from '../basis/ids.ts';
import type { Score } from '../score/score.ts';
import { proposeSplit, type ProposeOptions } from './propose-split.ts';
import { separateVoices } from './separate-voices.ts';
import type { SeparateOptions, Separation, VoiceNote } from './voice-note.ts';

const ticksPerQuarter = 4;
const manyNotes = (count: number, of: (index: number) => readonly [onset: number, length: number, midi: number]) =>
  Array.from({ length: count }, (_, index): VoiceNote => {
    const [onsetTicks, lengthTicks, midi] = of(index);
    return { onsetTicks, lengthTicks, midi };
  });

/** An answer that can be used whatever was asked: a label and a confidence for each note, no more than eight lines. */
function expectWhole({ labels, confidences, lineCount }: Separation, count: number): void {
  expect([labels.length, confidences.length]).toEqual([count, count]);
  expect(lineCount).toBeGreaterThanOrEqual(1);
  expect(lineCount).toBeLessThanOrEqual(8);
  expect(labels.filter((label) => !Number.isInteger(label) || label < 0 || label >= lineCount)).toEqual([]);
  expect(confidences.filter((confidence) => !(confidence >= 0 && confidence <= 1))).toEqual([]);
}

describe('separateVoices answers to', () => {
  it.each([
    ['no notes', []],
    ['one note', manyNotes(1, () => [0, 4, 60])],
    ['one note of length zero', manyNotes(1, () => [0, 0, 60])],
    ['forty notes at once', manyNotes(40, (index) => [0, 4, 30 + index])],
    ['forty notes at once, many times', manyNotes(400, (index) => [4 * Math.floor(index / 40), 4, 30 + (index % 40)])],
    ['one pitch forty times at once', manyNotes(40, () => [0, 4, 60])],
    ['notes of length zero', manyNotes(60, (index) => [index >> 1, 0, 40 + index])],
    ['notes that all ring to the end', manyNotes(500, (index) => [index, 1000, 40 + ((index * 7) % 40)])],
    ['the lowest and the highest note that there is', manyNotes(60, (index) => [index >> 1, 1, 127 * (index % 2)])],
  ])('%s', (_, notes) => {
    for (const lineCount of [undefined, 1, 4, 8])
      expectWhole(separateVoices(notes, { ticksPerQuarter, lineCount }), notes.length);
  });

  it('two hundred thousand notes', () => {
    const notes = manyNotes(200_000, (index) => [index >> 1, 2, index % 2 === 0 ? 64 + (index % 5) : 45 + (index % 7)]);
    expectWhole(separateVoices(notes, { ticksPerQuarter }), notes.length);
  }, 120_000);

  it('two hundred thousand notes at once', () => {
    const notes = manyNotes(200_000, (index) => [0, 4, 40 + (index % 40)]);
    expectWhole(separateVoices(notes, { ticksPerQuarter }), notes.length);
  }, 120_000);
});

describe('separateVoices refuses', () => {
  const note: VoiceNote = { onsetTicks: 0, lengthTicks: 4, midi: 60 };
  it.each([
    [
      'an onset that is no number',
      [note, { ...note, onsetTicks: NaN }],
      {},
      'The onset of note 1 is NaN; it must be a finite number.',
    ],
    [
      'a length without end',
      [{ ...note, lengthTicks: Infinity }],
      {},
      'The length of note 0 is Infinity; it must be a finite number, 0 or more.',
    ],
    [
      'a length below zero',
      [{ ...note, lengthTicks: -1 }],
      {},
      'The length of note 0 is -1; it must be a finite number, 0 or more.',
    ],
    [
      'a pitch between two',
      [{ ...note, midi: 60.5 }],
      {},
      'The pitch of note 0 is 60.5; it must be a whole number from 0 to 127.',
    ],
    [
      'a pitch beyond MIDI',
      [{ ...note, midi: 128 }],
      {},
      'The pitch of note 0 is 128; it must be a whole number from 0 to 127.',
    ],
    [
      'no ticks to the quarter',
      [note],
      { ticksPerQuarter: 0 },
      'ticksPerQuarter is 0; it must be a finite number above 0.',
    ],
    ['no line', [note], { lineCount: 0 }, 'lineCount is 0; it must be a whole number from 1 to 8.'],
    ['half a line', [note], { lineCount: 2.5 }, 'lineCount is 2.5; it must be a whole number from 1 to 8.'],
    ['nine lines', [note], { lineCount: 9 }, 'lineCount is 9; it must be a whole number from 1 to 8.'],
    [
      'a pin above the highest line',
      [note],
      { pins: new Map([[0, -1]]) },
      'The pin of note 0 is -1; it must be a whole number, 0 or more.',
    ],
    [
      'a pin between two lines',
      [note],
      { pins: new Map([[0, 0.5]]) },
      'The pin of note 0 is 0.5; it must be a whole number, 0 or more.',
    ],
  ])('%s', (_, notes: readonly VoiceNote[], more: Partial<SeparateOptions>, sentence) => {
    expect(() => separateVoices(notes, { ticksPerQuarter, ...more })).toThrow(new RangeError(sentence));
  });
});

describe('separateVoices keeps pins', () => {
  const notes = manyNotes(24, (index) => [4 * (index >> 1), 6, index % 2 === 0 ? 64 + (index % 5) : 45 + (index % 7)]);
  const split = (pins: ReadonlyMap<number, number>, lineCount?: number) =>
    separateVoices(notes, { ticksPerQuarter, lineCount, pins });

  it('that put overlapping notes on one line', () => {
    const pins = new Map(notes.map((_, index) => [index, 0]));
    expect(split(pins, 2).labels).toEqual(notes.map(() => 0));
  });

  it('that put notes of one moment on the lines the wrong way round', () => {
    const { labels, confidences } = split(new Map([[0, 1], [1, 0]]), 2); // prettier-ignore
    expect([labels.slice(0, 2), confidences.slice(0, 2)]).toEqual([[1, 0], [1, 1]]); // prettier-ignore
  });

  it('on more lines than were asked for, by raising the number', () => {
    expect(split(new Map([[3, 4]]), 2)).toMatchObject({ lineCount: 5 });
    expect(split(new Map([[3, 4]]), 2).labels[3]).toBe(4);
  });

  it('on more lines than it can tell apart, and steers by none of those', () => {
    const pins = new Map(notes.map((_, index) => [index, index]));
    const { labels, lineCount } = split(pins);
    expect(labels).toEqual(notes.map((_, index) => index));
    expect(lineCount).toBe(8);
  });

  it('and passes over pins of notes that there are not', () => {
    const pinned = split(new Map([[0, 1]]), 2);
    expect(split(new Map([[0, 1], [99, 0]]), 2)).toEqual(pinned); // prettier-ignore
  });
});

const letters = ['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h', 'i', 'j'];
const lines = letters.map((name, index) => lineNamed(name, index));

function proposed(score: Score, more: Partial<ProposeOptions> = {}) {
  let made = 0;
  return proposeSplit(score, { pins: new Map(), lines: [], newLineId: () => lineId(`made-${(made += 1)}`), ...more });
}

describe('proposeSplit keeps pins that contradict', () => {
  const score = voices(
    meter(4, 4),
    [note('E4', 1), note('F4', 1), note('G4', 1), note('A4', 1)],
    [chord(['C3', 'E3', 'G3'], 2), chord(['D3', 'F3', 'A3'], 2)],
  );
  const keeps = (pins: ReadonlyMap<NoteId, readonly LineId[]>): void => {
    const { marks } = proposed(score, { pins, lines });
    for (const { id } of score.notes) expect(marks.has(id)).toBe(true);
    for (const [id, on] of pins) if (marks.has(id)) expect(marks.get(id)?.lines).toEqual([...on].sort());
  };

  it.each([
    ['every note of a moment on one line', new Map(score.notes.slice(0, 4).map(({ id }) => [id, [lines[0]!.id]]))],
    ['the lowest note on the highest line and back', new Map([[score.notes[0]!.id, [lines[1]!.id]], [score.notes[3]!.id, [lines[0]!.id]]])], // prettier-ignore
    ['more lines than can be told apart', new Map(score.notes.map(({ id }, index) => [id, [lines[index]!.id]]))],
    ['two lines for every note', new Map(score.notes.map(({ id }) => [id, [lines[0]!.id, lines[1]!.id]]))],
    ['no line for any note', new Map(score.notes.map(({ id }) => [id, []]))],
    ['a line that is not known', new Map([[score.notes[0]!.id, [lineId('unknown')]]])],
  ])('%s', (_, pins) => {
    keeps(pins);
  });

  it('and passes over pins of notes that there are not', () => {
    const { marks } = proposed(score, { pins: new Map([[noteId('n999'), [lines[0]!.id]]]), lines });
    expect([...marks.keys()].sort()).toEqual(score.notes.map(({ id }) => id).sort());
  });
});

describe('proposeSplit on any score', () => {
  const runs = { seed: fixedSeed, numRuns: 40 };
  const anyPins = fc.array(fc.tuple(fc.nat(), fc.subarray(letters.slice(0, 4), { maxLength: 2 })), { maxLength: 8 });
  const pinsOn = (score: Score, drawn: readonly (readonly [number, readonly string[]])[]) =>
    new Map(
      drawn
        .filter(() => score.notes.length > 0)
        .map(([index, on]) => [score.notes[index % score.notes.length]!.id, on.map((name) => lineId(name))] as const),
    );

  it('has a mark for every note and for nothing else, on lines that it lists, and never overrides a pin', () => {
    fc.assert(
      fc.property(anyTwoVoices, anyPins, (score, drawn) => {
        const pins = pinsOn(score, drawn);
        const { marks, lines: after } = proposed(score, { pins, lines: lines.slice(0, 4) });
        expect([...marks.keys()].sort()).toEqual(score.notes.map(({ id }) => id).sort());
        const known = new Set(after.map(({ id }) => id));
        for (const { lines: on } of marks.values()) expect(on.filter((line) => !known.has(line))).toEqual([]);
        for (const [id, on] of pins) expect(marks.get(id)).toEqual({ lines: [...on].sort(), confidence: 1 });
      }),
      runs,
    );
  });

  it('does not mind the order in which pins were set', () => {
    fc.assert(
      fc.property(anyTwoVoices, anyPins, (score, drawn) => {
        const pins = pinsOn(score, drawn);
        const backwards = new Map([...pins].reverse());
        const options = { lines: lines.slice(0, 4) };
        expect(proposed(score, { ...options, pins: backwards })).toEqual(proposed(score, { ...options, pins }));
      }),
      runs,
    );
  });
});
