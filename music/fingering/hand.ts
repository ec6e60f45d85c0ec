/** What is stopped at one moment: the fret on each string, 0 where it is open, −1 where nothing sounds. */
export type Stopped = readonly number[];

/** What a hand must do for what is stopped. */
export interface Grip {
  /** A whole number; playable grips are below `unplayable`. */
  readonly cost: number;
  /** The frets at which the first finger may be; null where no fret is stopped. */
  readonly positions: readonly [lowest: number, highest: number] | null;
  readonly isInReach: boolean;
  readonly hasFingers: boolean;
}

/** The cost from which on something cannot be played. */
export const unplayable = 10_000;

/** A finger to a fret: four frets without, five with stretching. **Source** common practice, no source. */
const easySpan = 3;
/** The most frets between the lowest and the highest one stopped. */
export const widestSpan = 4;
const fingers = 4;
const costs = { stopped: 2, perFret: 1, stretch: 8, barre: 4, openInFirstPosition: -1, openFurtherUp: 6 };
const firstPosition = 4;

/** Fingers that a grip takes: one lays over all at the lowest fret, unless an open string lies between them. */
function fingersFor(stopped: Stopped, lowest: number): { readonly count: number; readonly isBarre: boolean } {
  let above = 0;
  let atLowest = 0;
  let first = -1;
  let last = -1;
  for (let string = 0; string < stopped.length; string += 1) {
    const fret = stopped[string] ?? -1;
    if (fret > lowest) above += 1;
    if (fret !== lowest) continue;
    atLowest += 1;
    if (first < 0) first = string;
    last = string;
  }
  let canLay = atLowest > 1;
  for (let string = first + 1; string < last; string += 1) if (stopped[string] === 0) canLay = false;
  const isBarre = canLay && atLowest + above > 2;
  return { count: above + (canLay ? 1 : atLowest), isBarre };
}

/** The effort of a grip by itself, wherever the hand was. Low frets are easier than high ones; open strings are welcome in first position and disturb further up. */
export function gripOf(stopped: Stopped): Grip {
  let lowest = Infinity;
  let highest = 0;
  let cost = 0;
  let openStrings = 0;
  for (const fret of stopped) {
    if (fret === 0) openStrings += 1;
    if (fret <= 0) continue;
    lowest = Math.min(lowest, fret);
    highest = Math.max(highest, fret);
    cost += costs.stopped + costs.perFret * fret;
  }
  if (highest === 0)
    return { cost: openStrings * costs.openInFirstPosition, positions: null, isInReach: true, hasFingers: true };
  const span = highest - lowest;
  const { count, isBarre } = fingersFor(stopped, lowest);
  const isInReach = span <= widestSpan;
  const hasFingers = count <= fingers;
  cost += openStrings * (lowest <= firstPosition ? costs.openInFirstPosition : costs.openFurtherUp);
  if (span > easySpan) cost += costs.stretch;
  if (isBarre) cost += costs.barre;
  if (!isInReach) cost += unplayable + 100 * span;
  if (!hasFingers) cost += unplayable;
  const floor = Math.min(lowest, Math.max(1, highest - Math.max(easySpan, Math.min(span, widestSpan))));
  return { cost, positions: [floor, lowest], isInReach, hasFingers };
}
