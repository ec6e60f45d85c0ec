import { PitchDetector } from 'pitchy';
import { describe, expect, it } from 'vitest';
import { stringCharacters } from './instruments.data.ts';
import { StringVoice } from './string-voice.ts';

const blockSamples = 128;
const lowest = 35; // B1, for dropped tunings
const highest = 88; // E6

function plucked(
  instrument: keyof typeof stringCharacters,
  midi: number,
  strength: number,
  sampleRate: number,
  seconds: number,
): Float32Array {
  const voice = new StringVoice(sampleRate, { shape: new Float64Array(4000), scratch: new Float64Array(4000) });
  voice.start(instrument, 'pluck', midi, strength, 4711, 1);
  const out = new Float32Array(Math.ceil((seconds * sampleRate) / blockSamples) * blockSamples);
  for (let at = 0; at < out.length; at += blockSamples) voice.render(out, at, at + blockSamples);
  return out;
}

/** The tuning formula: MIDI Tuning Standard, A4 (69) at 440 Hz. */
const hertzOf = (midi: number): number => 440 * 2 ** ((midi - 69) / 12);
const centsFrom = (hertz: number, wanted: number): number => 1200 * Math.log2(hertz / wanted);

function likeness(samples: Float32Array, lag: number, width: number): number {
  let product = 0;
  let here = 0;
  let there = 0;
  for (let index = 0; index < width; index += 1) {
    product += samples[index]! * samples[index + lag]!;
    here += samples[index]! ** 2;
    there += samples[index + lag]! ** 2;
  }
  return product / Math.sqrt(here * there);
}

/** The pitch by autocorrelation over many periods, the peak found by a parabola. */
function pitchByAutocorrelation(samples: Float32Array, sampleRate: number, near: number): number {
  const periods = Math.max(1, Math.min(12, Math.floor(0.1 * near)));
  const middle = Math.round((sampleRate / near) * periods);
  const width = Math.round(sampleRate * 0.15);
  const values = [-3, -2, -1, 0, 1, 2, 3].map((shift) => likeness(samples, middle + shift, width));
  const best = values.indexOf(Math.max(...values));
  const [before, at, after] = [values[best - 1]!, values[best]!, values[best + 1]!];
  const part = (before - after) / (2 * (before - 2 * at + after));
  return (sampleRate * periods) / (middle + best - 3 + part);
}

const instruments = Object.keys(stringCharacters) as (keyof typeof stringCharacters)[];

describe('a plucked string', () => {
  it.each(instruments.flatMap((instrument) => [44_100, 48_000].map((sampleRate) => [instrument, sampleRate] as const)))(
    '%s at %i Hz is in tune within 1 cent from B1 to E6, by autocorrelation and by pitchy',
    (instrument, sampleRate) => {
      const detector = PitchDetector.forFloat32Array(8192);
      for (let midi = lowest; midi <= highest; midi += 1) {
        const steady = plucked(instrument, midi, 0.6, sampleRate, 0.6).subarray(Math.round(0.1 * sampleRate));
        const wanted = hertzOf(midi);
        expect(Math.abs(centsFrom(pitchByAutocorrelation(steady, sampleRate, wanted), wanted))).toBeLessThan(1);
        const [hertz, clarity] = detector.findPitch(steady.subarray(0, 8192), sampleRate);
        expect(Math.abs(centsFrom(hertz, wanted))).toBeLessThan(1);
        expect(clarity).toBeGreaterThan(0.9);
      }
    },
  );

  it('is louder and brighter the harder it is plucked', () => {
    const roughness = (samples: Float32Array): number => {
      let slope = 0;
      let energy = 0;
      for (let index = 1; index < samples.length; index += 1) {
        slope += (samples[index]! - samples[index - 1]!) ** 2;
        energy += samples[index]! ** 2;
      }
      return slope / energy;
    };
    const [soft, hard] = [0.3, 0.9].map((strength) => plucked('steel', 52, strength, 48_000, 0.3));
    const peak = (samples: Float32Array): number => samples.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    expect(peak(hard!)).toBeGreaterThan(4 * peak(soft!));
    expect(roughness(hard!)).toBeGreaterThan(1.5 * roughness(soft!));
  });

  it('dies away, and at once under a finger', () => {
    const voice = new StringVoice(48_000, { shape: new Float64Array(4000), scratch: new Float64Array(4000) });
    voice.start('steel', 'pluck', 64, 0.6, 1, 1);
    const out = new Float32Array(48_000);
    voice.render(out, 0, 4800);
    voice.release(0.05);
    for (let at = 4800; at < 48_000; at += blockSamples)
      if (voice.isActive) voice.render(out, at, Math.min(48_000, at + blockSamples));
    expect(voice.isActive).toBe(false);
    expect(out.subarray(24_000).every((value) => Math.abs(value) < 1e-4)).toBe(true);
  });
});
