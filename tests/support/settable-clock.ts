import { SystemClock } from '../../api/index.ts';

const MINUTE_MILLISECONDS = 60_000;

/** The machine's clock, moved on by as much as a test says. */
export class SettableClock extends SystemClock {
  private aheadMilliseconds = 0;

  override now(): Date {
    return new Date(super.now().getTime() + this.aheadMilliseconds);
  }

  goOn(minutes: number): void {
    this.aheadMilliseconds += minutes * MINUTE_MILLISECONDS;
  }
}
