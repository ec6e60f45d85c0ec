import { describe, expect, it } from 'vitest';
import { outsideLoudness, outsideTruePeakDb } from '../../tests/support/outside-loudness.ts';
import { dbOfGain, gainOfDb } from './level.ts';
import { integratedLoudness, kWeightingOf } from './loudness.ts';
import { Noise } from './noise.ts';
import { SoundMeter } from './sound-meter.ts';
import { truePeakOf, truePeakTaps, truePeakWithin } from './true-peak.ts';

function sine(hertz: number, levelDb: number, seconds: number, sampleRate: number, phase = 0): Float32Array {
  const samples = new Float32Array(Math.round(seconds * sampleRate));
  const gain = gainOfDb(levelDb);
  for (let index = 0; index < samples.length; index += 1)
    samples[index] = gain * Math.sin((2 * Math.PI * hertz * index) / sampleRate + phase);
  return samples;
}

function joined(parts: readonly Float32Array[]): Float32Array {
  const whole = new Float32Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

describe('loudness', () => {
  it('weights by the filters that the standard prints for 48 kHz (ITU-R BS.1770-4, annex 1, tables 1 and 2)', () => {
    const [shelf, highPass] = kWeightingOf(48_000);
    const printed = [1.53512485958697, -2.69169618940638, 1.19839281085285, -1.69065929318241, 0.73248077421585];
    for (const [index, value] of [...shelf.feed, ...shelf.back].entries())
      expect(value).toBeCloseTo(printed[index]!, 6);
    expect(highPass.feed).toEqual([1, -2, 1]);
    expect(highPass.back[0]).toBeCloseTo(-1.99004745483398, 6);
    expect(highPass.back[1]).toBeCloseTo(0.99007225036621, 6);
  });

  /** EBU Tech 3341 (2016), table 1, test signals 1 to 5: stereo 1 kHz sines; within 0.1 LU. */
  const signals: readonly (readonly [string, readonly (readonly [number, number])[], number])[] = [
    ['signal 1', [[-23, 20]], -23],
    ['signal 2', [[-33, 20]], -33],
    [
      'signal 3',
      [
        [-36, 10],
        [-23, 60],
        [-36, 10],
      ],
      -23,
    ],
    [
      'signal 4',
      [
        [-72, 10],
        [-36, 10],
        [-23, 60],
        [-36, 10],
        [-72, 10],
      ],
      -23,
    ],
    [
      'signal 5',
      [
        [-26, 20],
        [-20, 20.1],
        [-26, 20],
      ],
      -23,
    ],
  ];
  it.each(signals)('measures EBU Tech 3341 %s as it should, and as ebur128-wasm does', (_, parts, wanted) => {
    for (const sampleRate of parts.length === 1 ? [44_100, 48_000] : [48_000]) {
      const signal = joined(parts.map(([levelDb, seconds]) => sine(1000, levelDb, seconds, sampleRate)));
      const measured = integratedLoudness([signal, signal], sampleRate);
      expect(Math.abs(measured - wanted)).toBeLessThanOrEqual(0.1);
      expect(Math.abs(measured - outsideLoudness(signal, signal, sampleRate))).toBeLessThanOrEqual(0.02);
    }
  });

  it('measures noise as ebur128-wasm does, and silence as −∞', () => {
    const noise = new Noise();
    noise.reseed(7);
    const left = Float32Array.from({ length: 48_000 * 4 }, () => 0.2 * noise.next());
    const right = Float32Array.from({ length: 48_000 * 4 }, () => 0.05 * noise.next());
    expect(
      Math.abs(integratedLoudness([left, right], 48_000) - outsideLoudness(left, right, 48_000)),
    ).toBeLessThanOrEqual(0.02);
    expect(integratedLoudness([new Float32Array(48_000)], 48_000)).toBe(-Infinity);
  });
});

describe('true peak', () => {
  it('finds peaks between samples, as ebur128-wasm does', () => {
    const between = sine(12_000, -6, 0.2, 48_000, Math.PI / 4);
    expect(dbOfGain(between.reduce((peak, value) => Math.max(peak, Math.abs(value)), 0))).toBeCloseTo(-9, 1);
    expect(Math.abs(dbOfGain(truePeakOf(between)) - -6)).toBeLessThanOrEqual(0.4);
    expect(Math.abs(dbOfGain(truePeakOf(between)) - outsideTruePeakDb(between, 48_000))).toBeLessThanOrEqual(0.4);
  });

  /** EBU Tech 3341 (2016), table 1, test signals 15 to 19: within +0.2 and −0.4 dB. Values from memory, no copy at hand. */
  it.each([
    ['signal 15', 4, 0, 0.5, -6],
    ['signal 16', 4, 45, 0.5, -6],
    ['signal 17', 6, 60, 0.5, -6],
    ['signal 18', 8, 67.5, 0.5, -6],
    ['signal 19', 4, 45, 1.41, 3],
  ])('measures EBU Tech 3341 %s as it should', (_, samplesPerPeriod, phaseDegrees, amplitude, wantedDb) => {
    for (const sampleRate of [44_100, 48_000]) {
      const signal = sine(
        sampleRate / samplesPerPeriod,
        dbOfGain(amplitude),
        0.5,
        sampleRate,
        (phaseDegrees * Math.PI) / 180,
      );
      for (let index = 0; index < 480; index += 1) {
        signal[index]! *= index / 480;
        signal[signal.length - 1 - index]! *= index / 480;
      }
      const measuredDb = dbOfGain(truePeakOf(signal));
      expect(measuredDb).toBeLessThanOrEqual(wantedDb + 0.2);
      expect(measuredDb).toBeGreaterThanOrEqual(wantedDb - 0.4);
    }
  });

  it('is the same piece by piece as at once, and overlooks nothing by skipping what cannot be higher', () => {
    const noise = new Noise();
    noise.reseed(11);
    const samples = Float32Array.from({ length: 9000 }, (__, index) => (index % 1000 < 30 ? 1 : 0.2) * noise.next());
    const meter = new SoundMeter(48_000);
    for (let from = 0; from < samples.length; from += 777) {
      const piece = samples.subarray(from, from + 777);
      meter.add({ left: piece, right: piece });
    }
    const padded = new Float64Array(samples.length + 2 * truePeakTaps);
    padded.set(samples, truePeakTaps);
    const everywhere = Array.from({ length: samples.length + truePeakTaps }, (__, at) => truePeakWithin(padded, at));
    expect(truePeakOf(samples)).toBe(Math.max(...everywhere));
    expect(meter.finish().truePeakDb).toBe(dbOfGain(truePeakOf(samples)));
  });
});
