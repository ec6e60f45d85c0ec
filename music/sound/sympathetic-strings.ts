import type { Tuning } from '../score/score.ts';
import { hertzOfMidi } from './level.ts';
import { StringLoop } from './string-loop.ts';

/** The open strings of a guitar in its usual tuning, the highest first. */
const usualTuning: Tuning = [64, 59, 55, 50, 45, 40];
const mostStrings = 8;
const ringSeconds = 2.6;
const brightSeconds = 0.35;
const feed = 0.006;
const gain = 0.45;
const dampedSeconds = 0.15;
/** The strings beat against what drives them a little, as no guitar is in tune with itself. **Units** cents. */
const offCents = [-0.6, 1, -1.2, 0.7, -0.9, 1.4] as const;

/**
 * Open strings that nobody plays and that sing along with what sounds near them. All arithmetic on what comes in is
 * linear, so that what they add to a mix is the sum of what they add to its lines.
 */
export class SympatheticStrings {
  private readonly loops: readonly StringLoop[];
  private tuning: Tuning = [];
  private hertz: readonly number[] = [];

  constructor(sampleRate: number) {
    this.loops = Array.from({ length: mostStrings }, () => new StringLoop(sampleRate));
    this.tune(null);
  }

  /** Tunes them, which stills them where it changes anything; as usual where it is unknown how. */
  tune(tuning: Tuning | null): void {
    const wanted = (tuning ?? usualTuning).slice(0, mostStrings);
    if (wanted.length === this.tuning.length && wanted.every((midi, index) => midi === this.tuning[index])) return;
    this.tuning = wanted;
    this.hertz = wanted.map((midi, index) => hertzOfMidi(midi + (offCents[index % offCents.length] ?? 0) / 100));
    this.clear();
    for (const [index, hertz] of this.hertz.entries())
      this.loops[index]?.tune({ hertz, ringSeconds, brightSeconds, isMoving: false });
  }

  /** Adds their answer to `input` to `out`. */
  render(input: Float32Array, out: Float32Array, count: number): void {
    for (let index = 0; index < this.hertz.length; index += 1)
      (this.loops[index] as StringLoop).renderDriven(input, out, count, feed, gain);
  }

  /** Lays the hand on them, or takes it off. */
  damp(isDamped: boolean): void {
    for (let index = 0; index < this.hertz.length; index += 1)
      (this.loops[index] as StringLoop).damp(this.hertz[index] as number, isDamped ? dampedSeconds : Infinity);
  }

  clear(): void {
    for (const loop of this.loops) loop.clear();
  }
}
