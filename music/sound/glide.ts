const settled = 1e-7;

/** A value that glides to its goal without a corner: two one-pole smoothers in a row. */
export class Glide {
  goal: number;
  private first: number;
  private second: number;

  constructor(start: number) {
    this.goal = this.first = this.second = start;
  }

  /** The value as it is. */
  get value(): number {
    return this.second;
  }

  get isSettled(): boolean {
    return this.first === this.goal && this.second === this.goal;
  }

  /** The value one sample on; `smoothing` is each smoother's share of the way. */
  next(smoothing: number): number {
    this.first += (this.goal - this.first) * smoothing;
    this.second += (this.first - this.second) * smoothing;
    return this.second;
  }

  /** Takes the last hair's breadth at once, so that a value at its goal is exactly its goal. */
  settle(): void {
    if (Math.abs(this.first - this.goal) < settled && Math.abs(this.second - this.goal) < settled) this.arrive();
  }

  arrive(): void {
    this.first = this.second = this.goal;
  }
}
