import { hertzOfMidi } from './level.ts';
import { StringLoop } from './string-loop.ts';

/** The open strings of a guitar in its usual tuning. */
const openMidis = [40, 45, 50, 55, 59, 64] as const;
const ringSeconds = 2.6;
const brightSeconds = 0.35;
const feed = 0.006;
const gain = 0.45;
const dampedSeconds = 0.15;
/** The strings beat against what drives them a little, as no guitar is in tune with itself. **Units** cents. */
const offCents = [1.4, -0.9, 0.7, -1.2, 1, -0.6] as const;

/**
 * Open strings that nobody plays and that sing along with what sounds near them. All arithmetic on what comes in is
 * linear, so that what they add to a mix is the sum of what they add to its lines.
 */
export class SympatheticStrings {
  private readonly loops: readonly StringLoop[];
  private readonly hertz: readonly number[];

  constructor(sampleRate: number) {
    this.hertz = openMidis.map((midi, index) => hertzOfMidi(midi + (offCents[index] ?? 0) / 100));
    this.loops = this.hertz.map((hertz) => {
      const loop = new StringLoop(sampleRate);
      loop.tune({ hertz, ringSeconds, brightSeconds, isMoving: false });
      return loop;
    });
  }

  /** Adds their answer to `input` to `out`. */
  render(input: Float32Array, out: Float32Array, count: number): void {
    for (let index = 0; index < this.loops.length; index += 1)
      (this.loops[index] as StringLoop).renderDriven(input, out, count, feed, gain);
  }

  /** Lays the hand on them, or takes it off. */
  damp(isDamped: boolean): void {
    for (let index = 0; index < this.loops.length; index += 1)
      (this.loops[index] as StringLoop).damp(this.hertz[index] as number, isDamped ? dampedSeconds : Infinity);
  }

  clear(): void {
    for (const loop of this.loops) loop.clear();
  }
}
