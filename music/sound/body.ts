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
  private readonly count = bodyModes.length;
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
    for (let mode = 0; mode < this.count; mode += 1) this.renderMode(mode, input, out, count);
  }

  private renderMode(mode: number, input: Float32Array, out: Float32Array, count: number): void {
    const feed = this.feed[mode] as number;
    const turn = this.turn[mode] as number;
    const loss = this.loss[mode] as number;
    let near = this.near[mode] as number;
    let far = this.far[mode] as number;
    for (let index = 0; index < count; index += 1) {
      const sample = input[index] as number;
      const value = feed * sample + near;
      near = far - turn * value;
      far = -feed * sample - loss * value;
      out[index] = (out[index] as number) + value;
    }
    this.near[mode] = Math.abs(near) > silent ? near : 0;
    this.far[mode] = Math.abs(far) > silent ? far : 0;
  }

  clear(): void {
    this.low = 0;
    this.near.fill(0);
    this.far.fill(0);
  }
}
