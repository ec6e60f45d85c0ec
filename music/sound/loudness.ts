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

/** The two filters of one channel with what they remember from sample to sample. */
class RunningWeighting {
  private readonly shelf: Biquad;
  private readonly highPass: Biquad;
  private near = 0;
  private far = 0;
  private nearNext = 0;
  private farNext = 0;

  constructor([shelf, highPass]: readonly [Biquad, Biquad]) {
    this.shelf = shelf;
    this.highPass = highPass;
  }

  /** The sum of the squares of what the filters make of the samples from `from` up to `to`. */
  squares(samples: Float32Array, from: number, to: number): number {
    const [a0, a1, a2] = this.shelf.feed;
    const [b1, b2] = this.shelf.back;
    const [c0, c1, c2] = this.highPass.feed;
    const [d1, d2] = this.highPass.back;
    let { near, far, nearNext, farNext } = this;
    let sum = 0;
    for (let index = from; index < to; index += 1) {
      const sample = samples[index] as number;
      const shelved = a0 * sample + near;
      near = a1 * sample - b1 * shelved + far;
      far = a2 * sample - b2 * shelved;
      const value = c0 * shelved + nearNext;
      nearNext = c1 * shelved - d1 * value + farNext;
      farNext = c2 * shelved - d2 * value;
      sum += value * value;
    }
    Object.assign(this, { near, far, nearNext, farNext });
    return sum;
  }
}

const stepSeconds = 0.1;
const stepsPerBlock = 4;
const absoluteGate = -70;
const relativeGate = -10;
const loudnessOf = (power: number): number => (power <= 0 ? -Infinity : -0.691 + 10 * exactLog10(power));
const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

/** Takes sound piece by piece and tells its block powers so far. */
export class BlockPowers {
  private readonly step: number;
  private readonly weightings: readonly RunningWeighting[];
  private readonly steps: number[] = [];
  private sum = 0;
  private inStep = 0;

  constructor(channelCount: number, sampleRate: number) {
    const filters = kWeightingOf(sampleRate);
    this.step = Math.round(stepSeconds * sampleRate);
    this.weightings = Array.from({ length: channelCount }, () => new RunningWeighting(filters));
  }

  /** Takes the next piece of every channel. */
  add(channels: readonly Float32Array[]): void {
    const length = channels[0]?.length ?? 0;
    for (let from = 0; from < length;) {
      const to = Math.min(length, from + this.step - this.inStep);
      this.addWithinStep(channels, from, to);
      from = to;
    }
  }

  private addWithinStep(channels: readonly Float32Array[], from: number, to: number): void {
    for (const [place, weighting] of this.weightings.entries())
      this.sum += weighting.squares(channels[place] as Float32Array, from, to);
    this.inStep += to - from;
    if (this.inStep < this.step) return;
    this.steps.push(this.sum / this.step);
    this.sum = 0;
    this.inStep = 0;
  }

  /** K-weighted mean squares of 400 ms blocks that overlap by three quarters; channels are summed with weight 1, as left and right have. */
  powers(): readonly number[] {
    const blocks: number[] = [];
    for (let at = stepsPerBlock; at <= this.steps.length; at += 1)
      blocks.push(mean(this.steps.slice(at - stepsPerBlock, at)));
    return blocks;
  }
}

/**
 * K-weighted mean squares of 400 ms blocks that overlap by three quarters, channels summed with weight 1, as left and right have.
 * Powers of sounds that are not alike add up.
 */
export function blockPowersOf(channels: readonly Float32Array[], sampleRate: number): readonly number[] {
  const powers = new BlockPowers(channels.length, sampleRate);
  powers.add(channels);
  return powers.powers();
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
