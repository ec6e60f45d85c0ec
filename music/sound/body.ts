import { exactCos, exactExp, exactSin } from '../basis/exact-math.ts';
import { bodyModes } from './instruments.data.ts';

const directShare = 0.9;
/** Below this the body is too small to give off sound. From memory, no source. */
const smallestHertz = 150;
const silent = 1e-15;

/** The body of a small guitar: the direct sound and its resonances beside each other. */
export class GuitarBody {
  private readonly feed: Float64Array;
  private readonly turn: Float64Array;
  private readonly loss: Float64Array;
  private readonly near: Float64Array;
  private readonly far: Float64Array;
  /** An even number, so that modes can be reckoned in twos. */
  private readonly count = bodyModes.length + (bodyModes.length % 2);
  private readonly lowSmoothing: number;
  private low = 0;

  /** **Source** band-pass with constant peak gain: Bristow-Johnson, Cookbook formulae for audio EQ biquad filter coefficients. */
  constructor(sampleRate: number) {
    this.lowSmoothing = 1 - exactExp((-2 * Math.PI * smallestHertz) / sampleRate);
    this.feed = new Float64Array(this.count);
    this.turn = new Float64Array(this.count);
    this.loss = new Float64Array(this.count);
    this.near = new Float64Array(this.count);
    this.far = new Float64Array(this.count);
    for (const [index, mode] of bodyModes.entries()) {
      const angle = (2 * Math.PI * mode.hertz) / sampleRate;
      const alpha = exactSin(angle) / (2 * mode.quality);
      this.feed[index] = (mode.share * alpha) / (1 + alpha);
      this.turn[index] = (-2 * exactCos(angle)) / (1 + alpha);
      this.loss[index] = (1 - alpha) / (1 + alpha);
    }
  }

  /** Adds what the body makes of `input` to `out`. */
  render(input: Float32Array, out: Float32Array, count: number): void {
    let { low } = this;
    for (let index = 0; index < count; index += 1) {
      const sample = input[index] as number;
      low += (sample - low) * this.lowSmoothing;
      out[index] = (out[index] as number) + (sample - low) * directShare;
    }
    this.low = Math.abs(low) > silent ? low : 0;
    for (let mode = 0; mode < this.count; mode += 2) this.renderTwo(mode, input, out, count);
  }

  /** Two modes at once, since neither waits for the other; the last may be alone with one that gives nothing. */
  private renderTwo(mode: number, input: Float32Array, out: Float32Array, count: number): void {
    const { feed, turn, loss, near, far } = this;
    const other = mode + 1;
    const [feedA, turnA, lossA] = [feed[mode] as number, turn[mode] as number, loss[mode] as number];
    const [feedB, turnB, lossB] = [feed[other] as number, turn[other] as number, loss[other] as number];
    let [nearA, farA] = [near[mode] as number, far[mode] as number];
    let [nearB, farB] = [near[other] as number, far[other] as number];
    for (let index = 0; index < count; index += 1) {
      const sample = input[index] as number;
      const fedA = feedA * sample;
      const fedB = feedB * sample;
      const valueA = fedA + nearA;
      const valueB = fedB + nearB;
      nearA = farA - turnA * valueA;
      nearB = farB - turnB * valueB;
      farA = -fedA - lossA * valueA;
      farB = -fedB - lossB * valueB;
      out[index] = (out[index] as number) + (valueA + valueB);
    }
    near[mode] = Math.abs(nearA) > silent ? nearA : 0;
    near[other] = Math.abs(nearB) > silent ? nearB : 0;
    far[mode] = Math.abs(farA) > silent ? farA : 0;
    far[other] = Math.abs(farB) > silent ? farB : 0;
  }

  clear(): void {
    this.low = 0;
    this.near.fill(0);
    this.far.fill(0);
  }
}
