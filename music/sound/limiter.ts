import { smoothingOf } from './level.ts';
import { PeakWatch } from './peak-watch.ts';
import { truePeakTaps } from './true-peak.ts';

const lookAheadSeconds = 0.0015;
const releaseSeconds = 0.12;
const queueMask = 255;

const lookAheadSamples = (sampleRate: number): number =>
  Math.min(queueMask - 1, Math.round(lookAheadSeconds * sampleRate));

/** How much later sound leaves a limiter than it came in. **Units** samples. */
export const limiterLatencySamples = (sampleRate: number): number => lookAheadSamples(sampleRate) + truePeakTaps / 2;

/** A stereo limiter that sees a peak coming and has turned down by the time that it arrives. Always in the path. */
export class Limiter {
  /** How much later the sound leaves than it came in. **Units** samples. */
  readonly latencySamples: number;
  private readonly lookAhead: number;
  private readonly leftDelay: Float32Array;
  private readonly rightDelay: Float32Array;
  private readonly watch = new PeakWatch();
  private readonly queueGain = new Float64Array(queueMask + 1);
  private readonly queueAt = new Float64Array(queueMask + 1);
  private readonly box: Float64Array;
  private readonly release: number;
  private queueHead = 0;
  private queueTail = 0;
  private gain = 1;
  private boxSum: number;
  private at = 0;
  private delayAt = 0;
  private boxAt = 0;

  constructor(sampleRate: number) {
    this.lookAhead = lookAheadSamples(sampleRate);
    this.latencySamples = limiterLatencySamples(sampleRate);
    this.leftDelay = new Float32Array(this.latencySamples + 1);
    this.rightDelay = new Float32Array(this.latencySamples + 1);
    this.box = new Float64Array(this.lookAhead).fill(1);
    this.boxSum = this.lookAhead;
    this.release = smoothingOf(releaseSeconds, sampleRate);
  }

  /** Limits both sides in place. `gains`, where given, says what each sample wants besides, and takes the factor of each sample that leaves. */
  process(left: Float32Array, right: Float32Array, count: number, gains: Float32Array | null = null): void {
    const length = this.leftDelay.length;
    for (let index = 0; index < count; index += 1) {
      const leftIn = left[index] as number;
      const rightIn = right[index] as number;
      const wanted = this.watch.wanted(leftIn, rightIn);
      const gain = this.smoothed(this.lowestAhead(gains === null ? wanted : Math.min(wanted, gains[index] as number)));
      const oldest = this.delayAt + 1 === length ? 0 : this.delayAt + 1;
      this.leftDelay[this.delayAt] = leftIn;
      this.rightDelay[this.delayAt] = rightIn;
      this.at += 1;
      this.delayAt = oldest;
      left[index] = (this.leftDelay[oldest] as number) * gain;
      right[index] = (this.rightDelay[oldest] as number) * gain;
      if (gains !== null) gains[index] = gain;
    }
  }

  /** The lowest gain wanted within the look-ahead, by a queue that only rises. */
  private lowestAhead(wanted: number): number {
    const { queueGain, queueAt } = this;
    while (this.queueTail !== this.queueHead && (queueGain[(this.queueTail - 1) & queueMask] as number) >= wanted) {
      this.queueTail = (this.queueTail - 1) & queueMask;
    }
    queueGain[this.queueTail] = wanted;
    queueAt[this.queueTail] = this.at;
    this.queueTail = (this.queueTail + 1) & queueMask;
    if ((queueAt[this.queueHead] as number) < this.at - this.lookAhead)
      this.queueHead = (this.queueHead + 1) & queueMask;
    return queueGain[this.queueHead] as number;
  }

  /** Down at once, up slowly, and averaged over the look-ahead so that no corner clicks. */
  private smoothed(lowest: number): number {
    this.gain = lowest < this.gain ? lowest : this.gain + (lowest - this.gain) * this.release;
    this.boxSum += this.gain - (this.box[this.boxAt] as number);
    this.box[this.boxAt] = this.gain;
    this.boxAt = this.boxAt + 1 === this.lookAhead ? 0 : this.boxAt + 1;
    return Math.min(1, this.boxSum / this.lookAhead);
  }
}
