import { gainOfDb, smoothingOf } from './level.ts';
import { truePeakTaps, truePeakWithin } from './true-peak.ts';

const lookAheadSeconds = 0.0015;
const releaseSeconds = 0.12;
/** Oversampling is only done near the ceiling. */
const watchShare = 0.45;
const queueMask = 255;

/** No output exceeds this. **Units** decibels true peak relative to full scale. */
export const ceilingDb = -1;
/** The limiter aims a little lower, for its estimate of peaks between samples is 4 × only. */
const aimDb = ceilingDb - 0.15;

/** A stereo limiter that sees a peak coming and has turned down by the time that it arrives. Always in the path. */
export class Limiter {
  /** How much later the sound leaves than it came in. **Units** samples. */
  readonly latencySamples: number;
  private readonly lookAhead: number;
  private readonly aim = gainOfDb(aimDb);
  private readonly leftDelay: Float32Array;
  private readonly rightDelay: Float32Array;
  private readonly leftRecent = new Float64Array(2 * truePeakTaps);
  private readonly rightRecent = new Float64Array(2 * truePeakTaps);
  private readonly queueGain = new Float64Array(queueMask + 1);
  private readonly queueAt = new Float64Array(queueMask + 1);
  private readonly box: Float64Array;
  private readonly release: number;
  private recentAt = 0;
  private watchLeft = 0;
  private queueHead = 0;
  private queueTail = 0;
  private gain = 1;
  private boxSum: number;
  private at = 0;

  constructor(sampleRate: number) {
    this.lookAhead = Math.min(queueMask - 1, Math.round(lookAheadSeconds * sampleRate));
    this.latencySamples = this.lookAhead + truePeakTaps / 2;
    this.leftDelay = new Float32Array(this.latencySamples + 1);
    this.rightDelay = new Float32Array(this.latencySamples + 1);
    this.box = new Float64Array(this.lookAhead).fill(1);
    this.boxSum = this.lookAhead;
    this.release = smoothingOf(releaseSeconds, sampleRate);
  }

  /** Limits both sides in place. `gains`, where given, takes the factor of each sample that leaves. */
  process(left: Float32Array, right: Float32Array, count: number, gains: Float32Array | null = null): void {
    const length = this.leftDelay.length;
    for (let index = 0; index < count; index += 1) {
      const leftIn = left[index] as number;
      const rightIn = right[index] as number;
      const gain = this.smoothed(this.lowestAhead(this.wanted(leftIn, rightIn)));
      const slot = this.at % length;
      this.leftDelay[slot] = leftIn;
      this.rightDelay[slot] = rightIn;
      this.at += 1;
      const oldest = this.at % length;
      left[index] = (this.leftDelay[oldest] as number) * gain;
      right[index] = (this.rightDelay[oldest] as number) * gain;
      if (gains !== null) gains[index] = gain;
    }
  }

  /** The gain that the present moment needs. */
  private wanted(left: number, right: number): number {
    const { recentAt, leftRecent, rightRecent } = this;
    leftRecent[recentAt] = leftRecent[recentAt + truePeakTaps] = left;
    rightRecent[recentAt] = rightRecent[recentAt + truePeakTaps] = right;
    this.recentAt = recentAt + 1 === truePeakTaps ? 0 : recentAt + 1;
    if (Math.max(Math.abs(left), Math.abs(right)) > this.aim * watchShare) this.watchLeft = truePeakTaps + 2;
    if (this.watchLeft === 0) return 1;
    this.watchLeft -= 1;
    const peak = Math.max(truePeakWithin(leftRecent, this.recentAt), truePeakWithin(rightRecent, this.recentAt));
    return peak > this.aim ? this.aim / peak : 1;
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
    const place = this.at % this.lookAhead;
    this.boxSum += this.gain - (this.box[place] as number);
    this.box[place] = this.gain;
    return Math.min(1, this.boxSum / this.lookAhead);
  }
}
