import { describe, expect, it } from 'vitest';
import { chord, hit, meter, note, rest, ticksPerQuarter, voices } from '../../tests/support/score-builders.ts';
import { splitOf } from '../../tests/support/split-builders.ts';
import { lineId } from '../basis/ids.ts';
import { performLines } from './perform-lines.ts';
import { sungAlong } from './sing-along.ts';
import { droneMidi, pitchRangeOf, singingMove, sungNotes, voiceRanges } from './singing-range.ts';

const score = voices(
  meter(4, 4),
  [note('E4', 1, { string: 1 }), chord(['G4', 'C4'], 1), rest(1), note('C5', 1, { string: 1, fret: 8 })],
  [note('C3', 4, { string: 5, fret: 3 })],
  [rest(1), hit(3)],
);
const split = splitOf({ melody: ['n1', 'n3', 'n4', 'n6'], bass: ['n2'], taps: ['n5'] });
const melody = lineId('melody');
const played = performLines(score, split);
const midisOf = (performance: typeof played, line: string) =>
  performance.events.flatMap((event) =>
    event.line === line && event.voice.kind === 'pitched' ? [event.voice.midi] : [],
  );

describe('singing along', () => {
  it('moves everything by semitones, and the hum alone by octaves', () => {
    const sung = sungAlong(played, score, { line: melody, octaves: -1, semitones: 2 });
    expect(midisOf(sung, 'melody')).toEqual(midisOf(played, 'melody').map((midi) => midi - 10));
    expect(midisOf(sung, 'bass')).toEqual(midisOf(played, 'bass').map((midi) => midi + 2));
    expect(sung.events.filter(({ voice }) => voice.kind === 'hit')).toEqual(
      played.events.filter(({ voice }) => voice.kind === 'hit'),
    );
  });

  it('hums one line, each note until the next, on no string', () => {
    const sung = sungAlong(played, score, { line: melody, octaves: 0, semitones: 0 });
    const hums = sung.events.filter(({ voice }) => voice.kind === 'pitched' && voice.instrument === 'hum');
    expect(new Set(hums.map(({ line }) => line))).toEqual(new Set([melody]));
    expect(hums.map(({ string }) => string)).toEqual([null, null, null, null]);
    const onsets = hums.map(({ onsetSeconds }) => onsetSeconds);
    hums.forEach(({ onsetSeconds, ringSeconds }) => {
      const next = onsets.find((onset) => onset > onsetSeconds) ?? Infinity;
      expect(onsetSeconds + ringSeconds).toBeLessThanOrEqual(next + 1e-9);
    });
  });

  it('leaves the performance alone where nothing is wanted, and times and strengths always', () => {
    expect(sungAlong(played, score, { line: null, octaves: 0, semitones: 0 })).toBe(played);
    const times = (performance: typeof played) =>
      performance.events.map((event) => [event.onsetSeconds, event.strength]);
    expect(times(sungAlong(played, score, { line: melody, octaves: 1, semitones: -3 }))).toEqual(times(played));
  });
});

describe('what is sung', () => {
  it('is the highest of notes struck together, within the stretch', () => {
    const bar = { startTicks: 0, endTicks: 2 * ticksPerQuarter };
    const notes = sungNotes(score, split, melody, bar);
    expect(notes.map(({ sound }) => sound.soundingMidi)).toEqual([64, 67]);
    expect(pitchRangeOf(notes)).toEqual({ lowMidi: 64, highMidi: 67 });
    expect(pitchRangeOf(sungNotes(score, split, lineId('taps'), bar))).toBeNull();
  });
});

describe('a move for a voice', () => {
  const low = voiceRanges.low;
  it.each([
    ['fits already', { lowMidi: 45, highMidi: 57 }, low, { octaves: 0, semitones: 0, beyondSemitones: 0 }],
    ['by an octave alone', { lowMidi: 64, highMidi: 72 }, low, { octaves: -1, semitones: 0, beyondSemitones: 0 }],
    ['by two octaves', { lowMidi: 76, highMidi: 84 }, low, { octaves: -2, semitones: 0, beyondSemitones: 0 }],
    ['by semitones too', { lowMidi: 61, highMidi: 79 }, low, { octaves: -2, semitones: 4, beyondSemitones: 0 }],
    ['as near as can be', { lowMidi: 50, highMidi: 74 }, low, { octaves: -1, semitones: -2, beyondSemitones: 5 }],
  ])('%s', (_, sung, voice, move) => {
    const found = singingMove(sung, voice);
    expect(found.beyondSemitones).toBe(move.beyondSemitones);
    if (move.beyondSemitones === 0) expect(Math.abs(found.semitones)).toBeLessThanOrEqual(Math.abs(move.semitones));
    const shift = 12 * found.octaves + found.semitones;
    const beyond =
      Math.max(0, voice.lowMidi - sung.lowMidi - shift) + Math.max(0, sung.highMidi + shift - voice.highMidi);
    expect(beyond).toBe(found.beyondSemitones);
  });
});

describe('a drone', () => {
  it('lies at the lowest sung note or less than an octave below it, and not under the low E', () => {
    expect(droneMidi(0, 64)).toBe(60);
    expect(droneMidi(60, 60)).toBe(60);
    expect(droneMidi(11, 60)).toBe(59);
    expect(droneMidi(0, 46)).toBe(48);
  });
});
