import { describe, expect, it } from 'vitest';
import { centsFrom, hertzOf, pitchByAutocorrelation, sharpest } from '../../tests/support/listening.ts';
import { rms } from '../../tests/support/least-squares.ts';
import { lineId, noteId } from '../basis/ids.ts';
import type { Performance, SoundEvent, Stroke } from '../perform/performance.ts';
import { plainMix } from './channel.ts';
import { dbOfGain } from './level.ts';
import { mixOfOnly, renderPerformance } from './render-lines.ts';

const sampleRate = 48_000;
const [upper, lower] = [lineId('upper'), lineId('lower')];
const onset = 0.5;

const event = (midi: number, stroke: Stroke, more: Partial<SoundEvent> = {}): SoundEvent => ({
  note: noteId('n1'),
  line: upper,
  onsetTicks: 0,
  onsetSeconds: 0,
  ringSeconds: onset,
  strength: 0.6,
  string: 3,
  fret: null,
  glide: [],
  voice: { kind: 'pitched', instrument: 'steel', midi, stroke },
  ...more,
});
const second = (midi: number, stroke: Stroke, more: Partial<SoundEvent> = {}): SoundEvent =>
  event(midi, stroke, { note: noteId('n2'), onsetSeconds: onset, ...more });

const performed = (...events: readonly SoundEvent[]): Performance => ({
  lines: [upper, lower],
  events,
  lengthSeconds: 1.2,
  timeMap: {
    segments: [{ startTicks: 0, endTicks: 1200, startSeconds: 0, secondsPerTick: 0.001, tempoSecondsPerTick: 0.001 }],
    lengthSeconds: 1.2,
  },
  bars: [],
  clicks: [],
  ranges: [],
  tuning: null,
  notes: [],
});

function heard(performance: Performance, lines = performance.lines, rate = 1): Float32Array {
  return renderPerformance(performance, mixOfOnly(performance, lines, false), { sampleRate, rate, tailSeconds: 0.2 })
    .left;
}

const around = (samples: Float32Array, seconds = onset): Float32Array =>
  samples.subarray((seconds - 0.01) * sampleRate, (seconds + 0.03) * sampleRate);
const pitchAfter = (samples: Float32Array, seconds: number, midi: number): number =>
  centsFrom(
    pitchByAutocorrelation(samples.subarray(Math.round(seconds * sampleRate)), sampleRate, hertzOf(midi)),
    hertzOf(midi),
  );

describe('[R53] a note that is hammered on or pulled off', () => {
  it.each([
    [57, 60],
    [60, 57],
  ])('goes on from %i to %i without a pluck, on its line', (from, to) => {
    const legato = heard(performed(event(from, 'pluck'), second(to, 'legato')));
    const plucked = heard(performed(event(from, 'pluck'), second(to, 'pluck')));
    expect(sharpest(around(legato))).toBeLessThan(0.4 * sharpest(around(plucked)));
    expect(Math.abs(pitchAfter(legato, onset + 0.1, to))).toBeLessThan(1);
  });

  it('goes on from another line’s note too, and the lines sum to the mix', () => {
    const performance = performed(event(57, 'pluck'), second(60, 'legato', { line: lower }));
    const mix = heard(performance);
    const [first, last] = performance.lines.map((line) => heard(performance, [line]));
    const apart = mix.reduce((most, value, at) => Math.max(most, Math.abs(value - first![at]! - last![at]!)), 0);
    expect(dbOfGain(apart)).toBeLessThan(-90);
    expect(rms(first!.subarray((onset + 0.3) * sampleRate))).toBeLessThan(
      0.1 * rms(last!.subarray((onset + 0.3) * sampleRate)),
    );
    expect(sharpest(around(mix))).toBeLessThan(
      0.4 * sharpest(around(heard(performed(event(57, 'pluck'), second(60, 'pluck'))))),
    );
  });

  it('is a soft pluck where nothing rings on its string', () => {
    const legato = heard(performed(second(60, 'legato')));
    const plucked = heard(performed(second(60, 'pluck')));
    const ratio = rms(around(legato)) / rms(around(plucked));
    expect(ratio).toBeGreaterThan(0.3);
    expect(ratio).toBeLessThan(0.8);
  });

  it('goes on from the nearest note that ends there where no string is known', () => {
    const unknown = { string: null };
    const before = [event(57, 'pluck', unknown), event(45, 'pluck', { ...unknown, ringSeconds: 1.2 })];
    const legato = heard(performed(...before, second(60, 'legato', unknown)));
    const plucked = heard(performed(...before, second(60, 'pluck', unknown)));
    expect(sharpest(around(legato))).toBeLessThan(0.5 * sharpest(around(plucked)));
  });

  it('lets a note on two lines go on in each', () => {
    const both = performed(
      event(57, 'pluck'),
      event(57, 'pluck', { line: lower }),
      second(60, 'legato'),
      second(60, 'legato', { line: lower }),
    );
    const [first, last] = both.lines.map((line) => heard(both, [line]));
    expect(last).toEqual(first);
  });
});

describe('a glide in the whole engine', () => {
  const glide = [
    { atSeconds: 0.2, cents: 0 },
    { atSeconds: 0.3, cents: 200 },
  ];

  it('arrives when the music does, however fast it is played', () => {
    for (const rate of [0.5, 1, 1.5]) {
      const samples = heard(performed(event(57, 'pluck', { ringSeconds: 1.2, glide })), undefined, rate);
      expect(Math.abs(pitchAfter(samples, 0.35 / rate, 59))).toBeLessThan(1);
    }
  });

  it('is followed by the hum', () => {
    const voice = { kind: 'pitched', instrument: 'hum', midi: 57, stroke: 'pluck' } as const;
    const samples = heard(performed(event(57, 'pluck', { ringSeconds: 1.2, glide, voice })));
    expect(Math.abs(pitchAfter(samples.subarray(0, 0.52 * sampleRate), 0.31, 59))).toBeLessThan(2);
  });
});

describe('[R54] strings that nobody plays', () => {
  const after = (performance: Performance): number => rms(heard(performance).subarray(0.8 * sampleRate));

  it('answer a note that is theirs, softly, and hardly one that is not', () => {
    const short = { string: null, ringSeconds: 0.4 };
    const theirs = performed(event(45, 'pluck', short));
    expect(dbOfGain(after(theirs) / rms(around(heard(theirs), 0.1)))).toBeGreaterThan(-45);
    expect(dbOfGain(after(theirs) / rms(around(heard(theirs), 0.1)))).toBeLessThan(-20);
    expect(after(performed(event(46, 'pluck', short)))).toBeLessThan(0.3 * after(theirs));
  });

  it('are silent where their line is', () => {
    const silent = { lines: [{ line: upper, mix: { ...plainMix, isAudible: false } }], loose: plainMix };
    const { left } = renderPerformance(performed(event(45, 'pluck')), silent, { sampleRate });
    expect(left.every((value) => value === 0)).toBe(true);
  });
});
