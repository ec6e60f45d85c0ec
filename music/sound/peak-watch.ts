import { gainOfDb } from './level.ts';
import { truePeakTaps, truePeakWithin } from './true-peak.ts';

/** No output exceeds this. **Units** decibels true peak relative to full scale. */
export const ceilingDb = -1;
/** One aims a little lower, for the estimate of peaks between samples is 4 × only. */
const aim = gainOfDb(ceilingDb - 0.15);
/** Oversampling is only done near the ceiling. */
const watchShare = 0.45;

/** Sound whose samples go no further than this is nowhere near the ceiling. 1 is full scale. */
export const untouchedPeak = aim * watchShare;

/** Looks at stereo sound sample by sample, and tells what it must be multiplied with to stay below the ceiling. */
export class PeakWatch {
  private readonly left = new Float64Array(2 * truePeakTaps);
  private readonly right = new Float64Array(2 * truePeakTaps);
  private at = 0;
  private watchLeft = 0;

  /** The gain that is needed about half the filter's length before this sample; 1 where it may stay as it is. */
  wanted(left: number, right: number): number {
    this.left[this.at] = this.left[this.at + truePeakTaps] = left;
    this.right[this.at] = this.right[this.at + truePeakTaps] = right;
    this.at = this.at + 1 === truePeakTaps ? 0 : this.at + 1;
    if (Math.max(Math.abs(left), Math.abs(right)) > untouchedPeak) this.watchLeft = truePeakTaps + 2;
    if (this.watchLeft === 0) return 1;
    this.watchLeft -= 1;
    const peak = Math.max(truePeakWithin(this.left, this.at), truePeakWithin(this.right, this.at));
    return peak > aim ? aim / peak : 1;
  }
}
