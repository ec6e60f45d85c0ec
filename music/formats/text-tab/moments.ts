import type { DrawnBar } from './bars-of-system.ts';
import type { FretSign, StraySign } from './fret-sign.ts';
import { CellReader, type StringState } from './read-cell.ts';
import type { TabLog } from './tab-log.ts';

/** Frets that are struck together. */
export interface Moment {
  /** From the left of the bar. */
  readonly column: number;
  /** Where it stands in the text's lines, so that words above and below can be set to it. */
  readonly textColumn: number;
  readonly frets: readonly FretSign[];
}

/** What one drawn bar holds. */
export interface BarContent {
  readonly moments: readonly Moment[];
  readonly strays: readonly StraySign[];
  readonly width: number;
  /** Where it begins in the text's lines, and where it ends. */
  readonly textFrom: number;
  readonly textTo: number;
}

interface OpenMoment {
  readonly column: number;
  reach: number;
  readonly frets: FretSign[];
}

/** Frets of which one's digits overlap the other's stand together, as 10 above 7 does, whichever digit the 7 is set to. */
function gather(frets: readonly FretSign[]): OpenMoment[] {
  const moments: OpenMoment[] = [];
  for (const fret of frets.toSorted((a, b) => a.column - b.column || a.string - b.string)) {
    const last = moments.at(-1);
    const fits =
      last !== undefined && fret.column <= last.reach && last.frets.every(({ string }) => string !== fret.string);
    if (!fits) moments.push({ column: fret.column, reach: fret.endColumn, frets: [fret] });
    else {
      last.frets.push(fret);
      if (fret.column === last.column) last.reach = Math.max(last.reach, fret.endColumn);
    }
  }
  return moments;
}

/** The moments of a bar from left to right; what each string carries from bar to bar goes on. */
export function contentOf(bar: DrawnBar, strings: readonly StringState[], log: TabLog): BarContent {
  const readers = bar.cells.flatMap((cell, string) => {
    const state = strings[string];
    return cell === null || state === undefined ? [] : [new CellReader(string, cell, state, log).read()];
  });
  const present = bar.cells.filter((cell) => cell !== null);
  const textFrom = Math.min(...present.map(({ from }) => from));
  const width = present[0]?.text.length ?? 0;
  const moments = gather(readers.flatMap(({ frets }) => frets)).map(({ column, frets }) => ({
    column,
    textColumn: Math.min(...frets.map(({ index }) => index)),
    frets: frets.toSorted((a, b) => b.string - a.string),
  }));
  return { moments, strays: readers.flatMap(({ strays }) => strays), width, textFrom, textTo: textFrom + width };
}

/** Whether a bar holds nothing but the sign that the bar before it is played again. **Source** common practice, no source. */
export const isSameAgain = ({ cells }: DrawnBar): boolean => {
  const present = cells.filter((cell) => cell !== null);
  return present.some(({ text }) => text.includes('%')) && present.every(({ text }) => /^[-\s%]*$/.test(text));
};

/** How many columns the dots of repeat signs take at the left of a bar, and in all. */
const dotsOf = (bar: DrawnBar | undefined): { readonly left: number; readonly all: number } => {
  const left = bar?.startsRepeat === true ? 1 : 0;
  return { left, all: left + (bar?.endsRepeat === true ? 1 : 0) };
};

/** What the bar before holds once more, at the place of another bar. */
export function sameAgain(bar: DrawnBar, content: BarContent, before: DrawnBar | undefined): BarContent {
  const present = bar.cells.filter((cell) => cell !== null);
  const textFrom = Math.min(...present.map(({ from }) => from));
  const textTo = textFrom + (present[0]?.text.length ?? 0);
  const shift = dotsOf(bar).left - dotsOf(before).left;
  const moments = content.moments.map((moment) => ({
    ...moment,
    column: moment.column + shift,
    textColumn: textFrom + Math.floor((moment.column * (textTo - textFrom)) / Math.max(1, content.width)),
  }));
  return { moments, strays: [], width: content.width + dotsOf(bar).all - dotsOf(before).all, textFrom, textTo };
}
