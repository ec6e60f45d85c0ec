import { writeMidi, type MidiEvent } from 'midi-file';
import { describe, expect, it } from 'vitest';
import type { Score } from '../../score/score.ts';
import { readScoreFile } from '../read-score-file.ts';

const ppq = 480;

type Placed = readonly [ticks: number, event: Record<string, unknown>];

function file(...placed: readonly Placed[]): Uint8Array {
  let at = 0;
  const events = placed
    .toSorted((a, b) => a[0] - b[0])
    .map(([ticks, event]) => {
      const deltaTime = ticks - at;
      at = ticks;
      return { ...event, deltaTime } as unknown as MidiEvent;
    });
  const track: MidiEvent[] = [...events, { deltaTime: 0, type: 'endOfTrack', meta: true }];
  return Uint8Array.from(writeMidi({ header: { format: 1, numTracks: 1, ticksPerBeat: ppq }, tracks: [track] }));
}

const note = (midi: number, start: number, length: number, channel = 0): readonly Placed[] => [
  [start, { type: 'noteOn', noteNumber: midi, velocity: 80, channel }],
  [start + length, { type: 'noteOff', noteNumber: midi, velocity: 0, channel }],
];
const tempo = (ticks: number, quartersPerMinute: number): Placed => [
  ticks,
  { type: 'setTempo', meta: true, microsecondsPerBeat: Math.round(60_000_000 / quartersPerMinute) },
];
const meter: Placed = [
  0,
  { type: 'timeSignature', meta: true, numerator: 4, denominator: 4, metronome: 24, thirtyseconds: 8 },
];

function read(bytes: Uint8Array): { readonly score: Score; readonly told: readonly string[] } {
  const result = readScoreFile(bytes, { fileName: 'made.mid', firstNoteNumber: 1, firstBarNumber: 1 });
  if (!result.ok) throw new Error(result.refusal.map(({ detail }) => detail).join(' '));
  return { score: result.value.score, told: result.value.issues.map(({ detail }) => detail) };
}

/** Notes as `name@onset+length`, in quarters from the start. */
const sounds = ({ notes, ticksPerQuarter }: Score): string[] =>
  notes.map(({ sound, onsetTicks, lengthTicks }) => {
    const name =
      sound.kind === 'hit' ? sound.hit : `${sound.written.step}${sound.written.alter || ''}${sound.written.octave}`;
    return `${name}@${onsetTicks / ticksPerQuarter}+${lengthTicks / ticksPerQuarter}`;
  });

describe('a stroke across the strings', () => {
  const chord = [40, 47, 52, 56, 59, 64];
  /** Each string `gap` ticks after the one before. */
  const stroke = (start: number, gap: number, pitches: readonly number[]): Placed[] =>
    pitches.flatMap((midi, index) => note(midi, start + index * gap, ppq - index * gap));

  it('is a chord, downwards and upwards, and is told', () => {
    const { score, told } = read(
      file(meter, tempo(0, 90), ...stroke(0, 14, chord), ...stroke(ppq, 14, chord.toReversed())),
    );
    expect([...new Set(score.notes.map(({ onsetTicks }) => onsetTicks / score.ticksPerQuarter))]).toEqual([0, 1]);
    expect(sounds(score)).toHaveLength(12);
    expect(told).toContain('2 chords are struck from string to string within a moment; written as struck together.');
  });

  it('is none where it is slow, turns round or does not ring', () => {
    const onsets = (...placed: readonly Placed[]): number =>
      new Set(read(file(meter, tempo(0, 60), ...placed)).score.notes.map(({ onsetTicks }) => onsetTicks)).size;
    expect(onsets(...stroke(0, 60, chord))).toBe(6);
    expect(onsets(...[60, 62, 64, 65].flatMap((midi, index) => note(midi, index * 30, 30)))).toBe(4);
    expect(onsets(...[60, 64, 62].flatMap((midi, index) => note(midi, index * 30, ppq)))).toBe(3);
  });
});

it('a hit lasts up to the next one within its beat; a note without length is a sixteenth', () => {
  const hits = [0, 240, 480, 960].flatMap((start) => note(42, start, 20, 9));
  expect(sounds(read(file(meter, ...hits)).score)).toEqual([
    'deadNote@0+0.5',
    'deadNote@0.5+0.5',
    'deadNote@1+1',
    'deadNote@2+1',
  ]);
  expect(sounds(read(file(meter, ...note(60, 0, 0), ...note(62, ppq, ppq))).score)).toEqual(['C4@0+0.25', 'D4@1+1']);
});

it('ends with the bar that the last note is written in, also where it rings on for a moment', () => {
  const notes = [0, 1, 2, 3].flatMap((beat) => note(60 + beat, beat * ppq, ppq + 20));
  expect(read(file(meter, ...notes)).score.bars).toHaveLength(1);
});

// Standard MIDI Files 1.0: “the default tempo is 120 beats per minute; the default time signature is 4/4”, from memory.
it('begins at 120 quarters a minute in 4/4 where the file says nothing, and says so', () => {
  const { score, told } = read(file(...note(60, 0, ppq), tempo(2 * ppq, 60), ...note(62, 2 * ppq, ppq)));
  expect(score.tempos.map(({ quartersPerMinute }) => quartersPerMinute)).toEqual([120, 60]);
  expect(told).toContain('The file names no meter; 4/4 was taken.');
  expect(told).toContain(
    'The file does not say how fast it begins; 120 quarter notes a minute were taken, as the standard says.',
  );
  const said = read(file(meter, tempo(0, 100), ...note(60, 0, ppq)));
  expect(said.score.tempos.map(({ quartersPerMinute }) => quartersPerMinute)).toEqual([100]);
  expect(said.told.join()).not.toContain('how fast');
});

describe('the key of a file that names none', () => {
  const line = (...pitches: readonly number[]): Score =>
    read(file(meter, ...pitches.flatMap((midi, index) => note(midi, index * ppq, ppq)))).score;

  it('is in minor where the bass ends on its tonic, with the seventh raised', () => {
    const minor = line(57, 59, 60, 62, 64, 68, 64, 57);
    expect(minor.bars[0]?.key).toEqual({ fifths: 0, mode: 'minor' });
    expect(sounds(minor)[5]).toBe('G14@5+1');
  });

  it('raises the first and fourth and lowers the third, sixth and seventh elsewhere', () => {
    const major = line(60, 61, 62, 64, 65, 66, 67, 63, 69, 68, 70, 71, 72, 67, 64, 60);
    expect(major.bars[0]?.key).toEqual({ fifths: 0, mode: null });
    expect([1, 5, 7, 9, 10].map((at) => sounds(major)[at]?.replace(/@.*/, ''))).toEqual([
      'C14',
      'F14',
      'E-14',
      'A-14',
      'B-14',
    ]);
  });
});
