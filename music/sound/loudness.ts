import { exactLog10, exactPow, exactTan } from '../basis/exact-math.ts';

/** A second-order filter, normalised: feed of the present and the last two samples, and of the last two results. */
export interface Biquad {
  readonly feed: readonly [number, number, number];
  readonly back: readonly [number, number];
}

/**
 * The two filters of K-weighting at any sample rate.
 * **Source** ITU-R BS.1770-4, annex 1, tables 1 and 2 (48 kHz); the analogue values that give those tables: De Man, Evaluation of
 * implementations of the EBU R128 loudness measurement, AES 145th Convention, 2018.
 */
export function kWeightingOf(sampleRate: number): readonly [Biquad, Biquad] {
  return [shelfOf(sampleRate), highPassOf(sampleRate)];
}

function shelfOf(sampleRate: number): Biquad {
  const warped = exactTan((Math.PI * 1681.974450955533) / sampleRate);
  const quality = 0.7071752369554196;
  const high = exactPow(10, 3.999843853973347 / 20);
  const band = exactPow(high, 0.4996667741545416);
  const scale = 1 + warped / quality + warped * warped;
  return {
    feed: [
      (high + (band * warped) / quality + warped * warped) / scale,
      (2 * (warped * warped - high)) / scale,
      (high - (band * warped) / quality + warped * warped) / scale,
    ],
    back: [(2 * (warped * warped - 1)) / scale, (1 - warped / quality + warped * warped) / scale],
  };
}

function highPassOf(sampleRate: number): Biquad {
  const warped = exactTan((Math.PI * 38.13547087602444) / sampleRate);
  const quality = 0.5003270373238773;
  const scale = 1 + warped / quality + warped * warped;
  return {
    feed: [1, -2, 1],
    back: [(2 * (warped * warped - 1)) / scale, (1 - warped / quality + warped * warped) / scale],
  };
}

function filtered(samples: Float64Array, { feed, back }: Biquad): Float64Array {
  const out = new Float64Array(samples.length);
  let near = 0;
  let far = 0;
  for (let index = 0; index < samples.length; index += 1) {
    const sample = samples[index] as number;
    const value = feed[0] * sample + near;
    near = feed[1] * sample - back[0] * value + far;
    far = feed[2] * sample - back[1] * value;
    out[index] = value;
  }
  return out;
}

const kWeighted = (samples: Float32Array, sampleRate: number): Float64Array => {
  const [shelf, highPass] = kWeightingOf(sampleRate);
  return filtered(filtered(Float64Array.from(samples), shelf), highPass);
};

const stepSeconds = 0.1;
const stepsPerBlock = 4;
const absoluteGate = -70;
const relativeGate = -10;
const loudnessOf = (power: number): number => (power <= 0 ? -Infinity : -0.691 + 10 * exactLog10(power));
const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

/**
 * K-weighted mean squares of 400 ms blocks that overlap by three quarters, channels summed with weight 1, as left and right have.
 * Powers of sounds that are not alike add up.
 */
export function blockPowersOf(channels: readonly Float32Array[], sampleRate: number): readonly number[] {
  const step = Math.round(stepSeconds * sampleRate);
  const stepCount = Math.floor((channels[0]?.length ?? 0) / step);
  const steps = new Float64Array(stepCount);
  for (const channel of channels) {
    const weighted = kWeighted(channel, sampleRate);
    for (let index = 0; index < stepCount * step; index += 1) {
      const value = weighted[index] as number;
      const at = Math.floor(index / step);
      steps[at] = (steps[at] as number) + (value * value) / step;
    }
  }
  const blocks: number[] = [];
  for (let at = stepsPerBlock; at <= stepCount; at += 1) blocks.push(mean([...steps.subarray(at - stepsPerBlock, at)]));
  return blocks;
}

/** The gated loudness of blocks; −Infinity where nothing passes the gate. **Units** LUFS. **Source** ITU-R BS.1770-4, annex 1. */
export function loudnessOfBlocks(powers: readonly number[]): number {
  const audible = powers.filter((power) => loudnessOf(power) > absoluteGate);
  if (audible.length === 0) return -Infinity;
  const threshold = loudnessOf(mean(audible)) + relativeGate;
  return loudnessOf(mean(audible.filter((power) => loudnessOf(power) > threshold)));
}

/**
 * The integrated loudness of one or two channels; −Infinity where nothing passes the gate. **Units** LUFS.
 * **Source** ITU-R BS.1770-4, annex 1 (K-weighting, gating at −70 LUFS and at 10 LU below what remains).
 */
export const integratedLoudness = (channels: readonly Float32Array[], sampleRate: number): number =>
  loudnessOfBlocks(blockPowersOf(channels, sampleRate));
