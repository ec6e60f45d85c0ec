import { describe, expect, it } from 'vitest';
import { outsideTruePeakDb } from '../../tests/support/outside-loudness.ts';
import { Limiter } from './limiter.ts';
import { ceilingDb } from './peak-watch.ts';
import { Noise } from './noise.ts';

const blockSamples = 128;

function limited(signal: Float32Array, sampleRate: number): Float32Array {
  const limiter = new Limiter(sampleRate);
  const out = signal.slice(0, Math.floor(signal.length / blockSamples) * blockSamples);
  for (let at = 0; at < out.length; at += blockSamples) {
    limiter.process(out.subarray(at, at + blockSamples), new Float32Array(blockSamples), blockSamples);
  }
  return out;
}

const noise = new Noise();
const loud = (kind: string, sampleRate: number): Float32Array => {
  noise.reseed(3);
  return Float32Array.from({ length: sampleRate }, (_, index) => {
    if (kind === 'noise') return 4 * noise.next();
    if (kind === 'bursts')
      return index % 4800 < 600 ? 5 * Math.sin((2 * Math.PI * 997 * index) / sampleRate) : 0.05 * noise.next();
    if (kind === 'between samples') return 3 * Math.sin((2 * Math.PI * 12_000 * index) / 48_000 + Math.PI / 4);
    return index % 700 === 0 ? 6 : 0;
  });
};

describe('the limiter', () => {
  it.each(['noise', 'bursts', 'between samples', 'single samples'])(
    'holds %s under the ceiling, by true peak of ebur128-wasm',
    (kind) => {
      for (const sampleRate of [44_100, 48_000]) {
        const peakDb = outsideTruePeakDb(limited(loud(kind, sampleRate), sampleRate), sampleRate);
        expect(peakDb).toBeLessThanOrEqual(ceilingDb);
        expect(peakDb).toBeGreaterThan(ceilingDb - 2);
      }
    },
  );

  it('changes nothing below the ceiling but when it comes', () => {
    const { latencySamples } = new Limiter(48_000);
    const soft = loud('noise', 48_000).map((value) => value / 8);
    const out = limited(soft, 48_000);
    expect(out.subarray(latencySamples)).toEqual(soft.subarray(0, out.length - latencySamples));
  });
});
