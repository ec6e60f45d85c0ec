import type { BarId, HeadId, NoteId } from '../../music/index.ts';

/** A rectangle in the pixels of its strip. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** One engraved head or fret number and where it stands. */
export interface DrawnHead {
  readonly head: HeadId;
  readonly note: NoteId;
  readonly kind: 'head' | 'digit';
  /** What takes the colour: one element as a rule. */
  readonly elements: readonly SVGGraphicsElement[];
  readonly box: Box;
  readonly system: number;
}

/** One staff of a system; `lineYs` are its lines from the top. */
export interface DrawnStaff {
  readonly kind: 'notation' | 'tablature';
  readonly lineYs: readonly number[];
  readonly part: string;
}

/** One bar of a system. */
export interface DrawnBar {
  readonly bar: BarId;
  readonly left: number;
  readonly right: number;
  /** Where its first note may stand, after clef, key and meter. */
  readonly musicLeft: number;
}

/** A moment and where it stands. */
export interface TimePoint {
  readonly ticks: number;
  readonly x: number;
}

/** One engraved system. */
export interface DrawnSystem {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly staves: readonly DrawnStaff[];
  readonly bars: readonly DrawnBar[];
  /** Ascending in ticks; the last one is the end of the last bar. */
  readonly times: readonly TimePoint[];
}

/** All that is known about an engraved strip. */
export interface DrawnStrip {
  readonly width: number;
  readonly height: number;
  readonly heads: readonly DrawnHead[];
  readonly systems: readonly DrawnSystem[];
}

/** The middle of a box. */
export const middleOf = (box: Box): { readonly x: number; readonly y: number } => ({
  x: box.x + box.width / 2,
  y: box.y + box.height / 2,
});

/** Where a moment stands within ascending time points; null before the first or after the last. */
export function xOfTicks(times: readonly TimePoint[], ticks: number): number | null {
  const first = times[0];
  const last = times.at(-1);
  if (first === undefined || last === undefined || ticks < first.ticks || ticks > last.ticks) return null;
  let low = 0;
  let high = times.length - 1;
  while (high - low > 1) {
    const half = (low + high) >> 1;
    if ((times[half] as TimePoint).ticks <= ticks) low = half;
    else high = half;
  }
  const before = times[low] as TimePoint;
  const after = times[high] as TimePoint;
  const span = after.ticks - before.ticks;
  return span === 0 ? before.x : before.x + ((after.x - before.x) * (ticks - before.ticks)) / span;
}
