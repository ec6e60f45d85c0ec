import { dbOfGain } from './level.ts';
import { BlockPowers, loudnessOfBlocks } from './loudness.ts';
import type { StereoSound } from './render-lines.ts';
import { RunningTruePeak } from './true-peak.ts';

/** How loud a piece of sound is as a whole. −Infinity stands for silence. */
export interface SoundLevels {
  /** **Units** LUFS, integrated. **Source** ITU-R BS.1770-4, annex 1. */
  readonly loudnessLufs: number;
  /** **Units** dBTP. **Source** ITU-R BS.1770-4, annex 2. */
  readonly truePeakDb: number;
}

/** Measures stereo sound piece by piece, without keeping it. */
export class SoundMeter {
  private readonly powers: BlockPowers;
  private readonly left = new RunningTruePeak();
  private readonly right = new RunningTruePeak();

  constructor(sampleRate: number) {
    this.powers = new BlockPowers(2, sampleRate);
  }

  /** Takes the next piece. */
  add({ left, right }: StereoSound): void {
    this.powers.add([left, right]);
    this.left.add(left);
    this.right.add(right);
  }

  /** The levels of all that was taken; nothing can be added after. */
  finish(): SoundLevels {
    return {
      loudnessLufs: loudnessOfBlocks(this.powers.powers()),
      truePeakDb: dbOfGain(Math.max(this.left.finish(), this.right.finish())),
    };
  }
}
