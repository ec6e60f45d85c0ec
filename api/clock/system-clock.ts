import { randomBytes } from 'node:crypto';
import { v7 } from 'uuid';
import { Clock } from './clock.ts';

/** The machine's own clock and chance. */
export class SystemClock extends Clock {
  override now(): Date {
    return new Date();
  }

  override newId(): string {
    return v7();
  }

  override randomBytes(count: number): Uint8Array {
    return randomBytes(count);
  }
}
