import type { PitchPoint } from '../perform/performance.ts';

const steady: readonly PitchPoint[] = [];

/** How many samples a pitch goes straight on before its course is asked again. */
export const courseStepSamples = 32;

/** The course of a note's pitch, walked from its start to its end at the rate of playing. */
export class PitchCourse {
  private points = steady;
  private next = 0;
  private seconds = 0;

  /** Takes a new course, at its start. */
  begin(points: readonly PitchPoint[]): void {
    this.points = points;
    this.next = 0;
    this.seconds = 0;
  }

  /** Whether the pitch ever moves. */
  get moves(): boolean {
    return this.points.length > 0;
  }

  /** Nothing moves any more. */
  get hasArrived(): boolean {
    const last = this.points[this.points.length - 1];
    return last === undefined || this.seconds >= last.atSeconds;
  }

  /** How far from the note's own pitch it is, `seconds` further on. **Units** seconds at the written tempo; cents. */
  advance(seconds: number): number {
    this.seconds += seconds;
    return this.cents();
  }

  private cents(): number {
    const { points, seconds } = this;
    while (this.next < points.length && (points[this.next] as PitchPoint).atSeconds <= seconds) this.next += 1;
    const before = points[this.next - 1];
    const after = points[this.next];
    if (before === undefined) return after?.cents ?? 0;
    if (after === undefined) return before.cents;
    const share = (seconds - before.atSeconds) / (after.atSeconds - before.atSeconds);
    return before.cents + (after.cents - before.cents) * share;
  }
}
