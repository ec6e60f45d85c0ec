import { exactExp } from '../basis/exact-math.ts';
import { Noise } from './noise.ts';

const touchSeconds = 0.009;
const slideSmoothSeconds = 0.006;
const lowHertz = 700;
const highHertz = 4200;
/** A finger that goes this fast over a wound string is as loud as it gets. From memory, no source. **Units** cents a second. */
const fastCents = 9000;
const slowestCents = 1200;
const inaudible = 1e-6;

/** What a finger is heard to do beside the tone: it rubs along a string, and it lands on one that rings. */
export class FingerNoise {
  private readonly noise = new Noise();
  private readonly low: number;
  private readonly high: number;
  private readonly touchDecay: number;
  private readonly slideSmoothing: number;
  private touch = 0;
  private slide = 0;
  private slideGoal = 0;
  private lowState = 0;
  private highState = 0;

  constructor(sampleRate: number) {
    this.low = 1 - exactExp((-2 * Math.PI * lowHertz) / sampleRate);
    this.high = 1 - exactExp((-2 * Math.PI * highHertz) / sampleRate);
    this.touchDecay = exactExp(-1 / (touchSeconds * sampleRate));
    this.slideSmoothing = 1 - exactExp(-1 / (slideSmoothSeconds * sampleRate));
  }

  begin(seed: number): void {
    this.noise.reseed(seed);
    this.touch = this.slide = this.slideGoal = this.lowState = this.highState = 0;
  }

  /** A finger lands. */
  land(level: number): void {
    this.touch = level;
  }

  /** A finger moves along the string. **Units** cents a second. */
  rub(centsPerSecond: number, level: number): void {
    const speed = Math.min(1, Math.max(0, (centsPerSecond - slowestCents) / (fastCents - slowestCents)));
    this.slideGoal = level * speed;
  }

  get isHeard(): boolean {
    return this.touch > inaudible || this.slide > inaudible || this.slideGoal > inaudible;
  }

  render(out: Float32Array, from: number, to: number): void {
    if (!this.isHeard) return;
    let { touch, slide, lowState, highState } = this;
    for (let index = from; index < to; index += 1) {
      slide += (this.slideGoal - slide) * this.slideSmoothing;
      touch *= this.touchDecay;
      highState += (this.noise.next() * (touch + slide) - highState) * this.high;
      lowState += (highState - lowState) * this.low;
      out[index] = (out[index] as number) + highState - lowState;
    }
    this.touch = touch;
    this.slide = slide;
    this.lowState = lowState;
    this.highState = highState;
  }
}
