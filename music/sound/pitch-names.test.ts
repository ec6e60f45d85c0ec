import { describe, expect, it } from 'vitest';
import { outsideTheory } from '../../tests/support/outside-theory.ts';
import { midiOf, pitchOfMidi, type Pitch } from '../basis/pitch.ts';
import { readScoreFile } from '../formats/read-score-file.ts';
import { hertzOfMidi } from './level.ts';

const { Note } = outsideTheory;

const spelled = ({ step, alter, octave }: Pitch): string =>
  `${step}${alter < 0 ? 'b'.repeat(-alter) : '#'.repeat(alter)}${octave}`;

const everyNote = Array.from({ length: 128 }, (_, midi) => midi);
const steps: readonly Pitch['step'][] = ['C', 'D', 'E', 'F', 'G', 'A', 'B'];

describe('pitches beside a second opinion', () => {
  it('have the MIDI numbers that tonal gives their names', () => {
    const all = steps.flatMap((step) =>
      [-2, -1, 0, 1, 2].flatMap((alter) => [0, 3, 4, 5, 9].map((octave): Pitch => ({ step, alter, octave }))),
    );
    expect(all.map(midiOf)).toEqual(all.map((pitch) => Note.get(spelled(pitch)).height));
  });

  it('have names that tonal reads as the same note, in sharp and in flat keys', () => {
    for (const fifths of [-7, -1, 0, 1, 7])
      expect(everyNote.map((midi) => Note.midi(spelled(pitchOfMidi(midi, fifths))))).toEqual(everyNote);
    expect(everyNote.map((midi) => spelled(pitchOfMidi(midi, -1)))).toEqual(
      everyNote.map((midi) => Note.fromMidi(midi)),
    );
    expect(everyNote.map((midi) => spelled(pitchOfMidi(midi, 0)))).toEqual(
      everyNote.map((midi) => Note.fromMidiSharps(midi)),
    );
  });

  // MIDI Tuning Standard: frequency = 440 Hz · 2^((note − 69) / 12); A4 is note 69.
  it('have the frequencies of the MIDI tuning formula and of tonal', () => {
    expect(hertzOfMidi(69)).toBe(440);
    for (const midi of everyNote) {
      const formula = 440 * 2 ** ((midi - 69) / 12);
      expect(Math.abs(hertzOfMidi(midi) / formula - 1)).toBeLessThan(1e-12);
      expect(hertzOfMidi(midi)).toBeCloseTo(Note.freq(Note.fromMidi(midi)) ?? NaN, 6);
    }
  });
});

/** Open strings from the highest. **Source** common practice among guitarists, no source; the numbers of the names are tonal's. */
const tunings: readonly (readonly [string, string, readonly string[]])[] = [
  ['standard', 'eBGDAE', ['E4', 'B3', 'G3', 'D3', 'A2', 'E2']],
  ['dropped D', 'eBGDAD', ['E4', 'B3', 'G3', 'D3', 'A2', 'D2']],
  ['DADGAD', 'dAGDAD', ['D4', 'A3', 'G3', 'D3', 'A2', 'D2']],
  ['open G', 'dBGDGD', ['D4', 'B3', 'G3', 'D3', 'G2', 'D2']],
];
const frets = [0, 1, 5, 7, 9];

describe('string and fret to pitch', () => {
  it.each(tunings)('in %s tuning', (_, labels, open) => {
    const tab = Array.from(labels, (label, place) => {
      const cells = open.flatMap((_string, string) => frets.map((fret) => (string === place ? `${fret}-` : '--')));
      return `${label}|${cells.join('')}|`;
    }).join('\n');
    const read = readScoreFile(new TextEncoder().encode(tab), {
      fileName: 'a.txt',
      firstNoteNumber: 1,
      firstBarNumber: 1,
    });
    if (!read.ok) throw new Error(read.refusal.map(({ detail }) => detail).join(' '));
    const heard = read.value.score.notes.map(({ sound, fingerboard }) => [
      fingerboard?.string,
      fingerboard?.fret,
      sound.kind === 'pitched' ? sound.soundingMidi : null,
    ]);
    const expected = open.flatMap((name, place) =>
      frets.map((fret) => [place + 1, fret, (Note.midi(name) ?? NaN) + fret]),
    );
    expect(heard).toEqual(expected);
  });
});
