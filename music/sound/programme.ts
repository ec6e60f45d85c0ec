import type { LineId } from '../basis/ids.ts';

/** A line of a pass and how loud it is there, beside its level in the mix. */
export interface PassLine {
  readonly line: LineId;
  readonly levelDb: number;
}

/** One pass over the stretch that is played. Lines that a pass does not name are silent in it, whatever the mix says. */
export type Pass =
  /** The lines sound; `all` leaves it to the mix. */
  | { readonly kind: 'play'; readonly lines: readonly PassLine[] | 'all' }
  /** Nothing sounds, for as long as the stretch lasts, so that one can sing; with the click if wanted. */
  | { readonly kind: 'silence'; readonly withClick: boolean }
  /** Only the first note of a line, and no more of the stretch. */
  | { readonly kind: 'firstNote'; readonly line: LineId }
  /** Bars of clicks, and the part-bar before the stretch where it begins within a bar. */
  | { readonly kind: 'countIn'; readonly bars: 1 | 2 };

/** Passes in order, and what follows the last: nothing, all of them again, or the last one over and over. */
export interface Programme {
  readonly passes: readonly Pass[];
  readonly afterLast: 'stop' | 'again' | 'stay';
}

const noClick = false;
const withClick = true;
/** How soft a line has become in the last pass in which it still sounds. **Units** decibels. */
const almostGoneDb = -24;
const silentDb = -60;

const allAtLevel = (lines: readonly LineId[]): Pass => ({
  kind: 'play',
  lines: lines.map((line) => ({ line, levelDb: 0 })),
});

/** Hear the lines, then the same length of silence to sing in, then hear them again. */
export const echoProgramme = (lines: readonly LineId[]): Programme => ({
  passes: [allAtLevel(lines), { kind: 'silence', withClick: noClick }, allAtLevel(lines)],
  afterLast: 'stop',
});

/** Only the first note, a bar to count in, the stretch in silence with the click, then the line itself. */
export const revealProgramme = (line: LineId): Programme => ({
  passes: [
    { kind: 'firstNote', line },
    { kind: 'countIn', bars: 1 },
    { kind: 'silence', withClick },
    allAtLevel([line]),
  ],
  afterLast: 'stop',
});

/** All lines sound; one of them grows softer from pass to pass and is silent in the last. */
export function fadeProgramme(lines: readonly LineId[], fading: LineId, passCount: number): Programme {
  const levelOf = (index: number): number =>
    index === passCount - 1 ? silentDb : (almostGoneDb * index) / Math.max(1, passCount - 2);
  const passes = Array.from({ length: passCount }, (_, index): Pass => ({
    kind: 'play',
    lines: lines.map((line) => ({ line, levelDb: line === fading ? levelOf(index) : 0 })),
  }));
  return { passes, afterLast: 'stop' };
}
