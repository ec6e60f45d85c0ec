import { PitchDetector } from 'pitchy';
import { describe, expect, it } from 'vitest';
import {
  centsFrom,
  heard,
  hertzOf,
  pitchByAutocorrelation,
  roughness,
  sharpest,
} from '../../tests/support/listening.ts';
import { rms } from '../../tests/support/least-squares.ts';
import type { PitchPoint, Stroke } from '../perform/performance.ts';
import { stringCharacters } from './instruments.data.ts';
import { StringVoice } from './string-voice.ts';

const lowest = 35; // B1, for dropped tunings
const highest = 88; // E6
type Plucked = keyof typeof stringCharacters;

const space = { shape: new Float64Array(4000), scratch: new Float64Array(4000) };

function started(
  sampleRate: number,
  instrument: Plucked,
  midi: number,
  more: { stroke?: Stroke; strength?: number; glide?: readonly PitchPoint[]; before?: StringVoice } = {},
): StringVoice {
  const voice = new StringVoice(sampleRate, space);
  const { stroke = 'pluck', strength = 0.6, glide = [], before } = more;
  const played = { kind: 'pitched', instrument, midi, stroke } as const;
  voice.start(played, { voice: played, strength, fret: null, glide }, 4711, 1, before ?? null);
  return voice;
}

const instruments = Object.keys(stringCharacters) as Plucked[];
const everywhere = instruments.flatMap((instrument) =>
  [44_100, 48_000].map((sampleRate) => [instrument, sampleRate] as const),
);

function expectInTune(samples: Float32Array, sampleRate: number, midi: number): void {
  const wanted = hertzOf(midi);
  expect(Math.abs(centsFrom(pitchByAutocorrelation(samples, sampleRate, wanted), wanted))).toBeLessThan(1);
}

describe('a plucked string', () => {
  it.each(everywhere)(
    '%s at %i Hz is in tune within 1 cent from B1 to E6, by autocorrelation and by pitchy',
    (instrument, sampleRate) => {
      const detector = PitchDetector.forFloat32Array(8192);
      for (let midi = lowest; midi <= highest; midi += 1) {
        const steady = heard(started(sampleRate, instrument, midi), sampleRate, 0.6).subarray(0.1 * sampleRate);
        expectInTune(steady, sampleRate, midi);
        const [hertz, clarity] = detector.findPitch(steady.subarray(0, 8192), sampleRate);
        expect(Math.abs(centsFrom(hertz, hertzOf(midi)))).toBeLessThan(1);
        expect(clarity).toBeGreaterThan(0.9);
      }
    },
  );

  it('is louder and brighter the harder it is plucked', () => {
    const [soft, hard] = [0.3, 0.9].map((strength) => heard(started(48_000, 'steel', 52, { strength }), 48_000, 0.3));
    const peak = (samples: Float32Array): number => samples.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    expect(peak(hard!)).toBeGreaterThan(4 * peak(soft!));
    expect(roughness(hard!)).toBeGreaterThan(2 * roughness(soft!));
  });

  it('dies away, and at once under a finger', () => {
    const voice = started(48_000, 'steel', 64);
    heard(voice, 48_000, 0.1);
    voice.release(0.05);
    heard(voice, 48_000, 0.3);
    const after = heard(voice, 48_000, 0.2);
    expect(voice.isActive).toBe(false);
    expect(after.every((value) => Math.abs(value) < 1e-4)).toBe(true);
  });

  it('rings shorter and darker under the palm, and hardly at all where it is not held down', () => {
    const [open, muted, dead] = (['pluck', 'palmMute', 'dead'] as const).map((stroke) =>
      heard(started(48_000, 'steel', 45, { stroke }), 48_000, 0.6),
    );
    const late = (samples: Float32Array): number => rms(samples.subarray(14_400)) / rms(samples.subarray(0, 4800));
    expect(late(muted!)).toBeLessThan(0.1 * late(open!));
    expect(late(dead!)).toBeLessThan(0.1 * late(muted!));
    expect(roughness(muted!.subarray(0, 4800))).toBeLessThan(0.7 * roughness(open!.subarray(0, 4800)));
  });
});

describe('a pitch that glides', () => {
  const bend = (cents: number): readonly PitchPoint[] => [
    { atSeconds: 0.5, cents: 0 },
    { atSeconds: 0.7, cents },
  ];

  it.each(everywhere)('%s at %i Hz is in tune within 1 cent before and after', (instrument, sampleRate) => {
    for (const midi of [lowest, 40, 52, 64, 76]) {
      for (const semitones of [1, -2, 5, 12]) {
        const samples = heard(started(sampleRate, instrument, midi, { glide: bend(semitones * 100) }), sampleRate, 1.1);
        expectInTune(samples.subarray(0.1 * sampleRate, 0.48 * sampleRate), sampleRate, midi);
        expectInTune(samples.subarray(0.72 * sampleRate), sampleRate, midi + semitones);
      }
    }
  });

  it('starts away from its pitch where its course does', () => {
    const samples = heard(
      started(48_000, 'steel', 57, {
        glide: [
          { atSeconds: 0.4, cents: -200 },
          { atSeconds: 0.5, cents: 0 },
        ],
      }),
      48_000,
      0.9,
    );
    expectInTune(samples.subarray(2400, 18_000), 48_000, 55);
    expectInTune(samples.subarray(25_000), 48_000, 57);
  });

  it('makes no step or corner that the steady string has not', () => {
    for (const cents of [100, -100, 200, -200]) {
      const gliding = heard(started(48_000, 'nylon', 64, { glide: bend(cents), strength: 0.4 }), 48_000, 1);
      const before = sharpest(gliding.subarray(18_000, 23_900));
      expect(sharpest(gliding.subarray(23_900, 36_000))).toBeLessThan(before * 1.1);
    }
  });

  it('keeps its energy: it fades, but not faster than half and not slower than the steady string', () => {
    const steady = heard(started(48_000, 'steel', 52), 48_000, 1);
    const fall = (samples: Float32Array): number =>
      rms(samples.subarray(38_400, 43_200)) / rms(samples.subarray(19_200, 24_000));
    for (const cents of [100, 200, -200, 500]) {
      const gliding = heard(started(48_000, 'steel', 52, { glide: bend(cents) }), 48_000, 1);
      expect(fall(gliding)).toBeLessThan(fall(steady) * 1.15);
      expect(fall(gliding)).toBeGreaterThan(fall(steady) * 0.5);
    }
  });

  it('takes as long as the rate of playing has it', () => {
    const slow = heard(started(48_000, 'steel', 57, { glide: bend(200) }), 48_000, 2, 0.5);
    expectInTune(slow.subarray(0.6 * 48_000, 0.98 * 48_000), 48_000, 57);
    expectInTune(slow.subarray(1.42 * 48_000), 48_000, 59);
  });
});

describe('a string that is not plucked anew', () => {
  const onset = 14_400;
  const within = (samples: Float32Array): Float32Array => samples.subarray(onset - 100, onset + 1440);

  /** The first pitch for 0.3 s, then the second, as two voices make them together. */
  function joined(from: number, to: number, stroke: Stroke, glide: readonly PitchPoint[] = []): Float32Array {
    const first = started(48_000, 'steel', from, { glide });
    const out = new Float32Array(onset * 2);
    for (let at = 0; at < onset; at += 96) first.render(out, at, at + 96, 1);
    const second = started(48_000, 'steel', to, { stroke, ...(stroke === 'legato' ? { before: first } : {}) });
    if (stroke !== 'legato') first.release(0.04);
    for (let at = onset; at < out.length; at += 96) {
      if (first.isActive) first.render(out, at, at + 96, 1);
      second.render(out, at, at + 96, 1);
    }
    return out;
  }

  it.each([
    [57, 59],
    [59, 57],
    [50, 55],
  ])('goes on from %i to %i in tune and without the noise of a pluck', (from, to) => {
    const legato = joined(from, to, 'legato');
    expectInTune(legato.subarray(onset + 1000), 48_000, to);
    expect(sharpest(within(legato))).toBeLessThan(0.4 * sharpest(within(joined(from, to, 'pluck'))));
    expect(sharpest(within(legato))).toBeLessThan(2.5 * sharpest(legato.subarray(onset - 1440, onset - 100)));
  });

  it('goes on where a finger has slid to, as if nothing had happened', () => {
    const slid = joined(57, 60, 'legato', [
      { atSeconds: 0.2, cents: 0 },
      { atSeconds: 0.28, cents: 300 },
    ]);
    expectInTune(slid.subarray(onset + 1000), 48_000, 60);
    const [before, after] = [slid.subarray(onset - 960, onset), slid.subarray(onset, onset + 960)];
    expect(rms(after) / rms(before)).toBeGreaterThan(0.85);
    expect(rms(after) / rms(before)).toBeLessThan(1.05);
    expect(sharpest(within(slid))).toBeLessThan(1.2 * sharpest(slid.subarray(onset - 960, onset)));
  });

  it('ends the voice that it takes over', () => {
    const first = started(48_000, 'steel', 57);
    heard(first, 48_000, 0.1);
    const second = started(48_000, 'steel', 59, { stroke: 'legato', before: first });
    heard(first, 48_000, 0.01);
    expect([first.isActive, second.isActive]).toEqual([false, true]);
  });
});
