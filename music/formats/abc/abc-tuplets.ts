import type { AbcEvent } from './abc-events.ts';
import type { AbcMeter } from './abc-time.ts';
import type { AbcToken } from './abc-tokens.ts';

interface OpenTuplet {
  readonly actual: number;
  readonly normal: number;
  left: number;
  isFirst: boolean;
}

/** How many notes a tuplet takes the time of where it does not say. **Source** ABC 2.1, duplets, triplets, quadruplets, from memory. */
function normalOf(actual: number, meter: AbcMeter): number {
  if (actual === 3 || actual === 6) return 2;
  if (actual === 2 || actual === 4 || actual === 8) return 3;
  const { meter: measured } = meter;
  const count = measured?.beats.reduce((sum, beats) => sum + beats, 0) ?? 4;
  return measured !== null && measured.beatUnit >= 8 && count % 3 === 0 ? 3 : 2;
}

/** Puts the notes after a tuplet's sign into it. */
export class Tuplets {
  private open: OpenTuplet | null = null;

  start({ actual, normal, count }: Extract<AbcToken, { kind: 'tuplet' }>, meter: AbcMeter): void {
    if (actual < 2) return;
    const inTimeOf = normal === null || normal === 0 ? normalOf(actual, meter) : normal;
    this.open = { actual, normal: inTimeOf, left: count === null || count === 0 ? actual : count, isFirst: true };
  }

  put(event: AbcEvent): void {
    const { open } = this;
    if (open === null) return;
    event.tuplet = { actual: open.actual, normal: open.normal };
    open.left -= 1;
    event.tupletEdge = open.isFirst ? 'start' : open.left === 0 ? 'stop' : null;
    open.isFirst = false;
    if (open.left === 0) this.open = null;
  }
}
