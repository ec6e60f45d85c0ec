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
