import { exactPow } from '../basis/exact-math.ts';
import { gainOfDb } from './level.ts';

const riseSeconds = 1;
const softerDb = -12;

/** A first sound that begins softly and rises to what it is, evenly in decibels; at rest it changes nothing. */
export class Rise {
  private readonly factor: number;
  private gain = 1;

  constructor(sampleRate: number) {
    this.factor = exactPow(10, -softerDb / 20 / (riseSeconds * sampleRate));
  }

  begin(): void {
    this.gain = gainOfDb(softerDb);
  }

  /** Softens the next samples of both sides for as long as it rises. */
  apply(left: Float32Array, right: Float32Array): void {
    for (let index = 0; index < left.length && this.gain < 1; index += 1) {
      left[index] = (left[index] as number) * this.gain;
      right[index] = (right[index] as number) * this.gain;
      this.gain = Math.min(1, this.gain * this.factor);
    }
  }
}
