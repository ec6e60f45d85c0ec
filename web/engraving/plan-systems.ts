import type { Bar, BarId, Score } from '../../music/index.ts';

/** The bars of one system, in written order. */
export interface SystemPlan {
  readonly bars: readonly Bar[];
  /** The width that its music asks for; less than the page for a short last system. */
  readonly neededWidth: number;
}

/** How wide music is set. **Units** pixels. */
export interface PlanMeasures {
  /** The room for bars on one system, clef and key taken off. */
  readonly width: number;
  /** The room that one moment of a bar asks for. */
  readonly perSlice: number;
  readonly perBar: number;
}

const mostBars = 8;
/** How far a system may ask for more than the page is wide; it is then set closer. */
const mostCrowded = 1.1;

/** How many different moments each bar has notes at. */
export function slicesOfBars(score: Pick<Score, 'notes'>): ReadonlyMap<BarId, number> {
  const onsets = new Map<BarId, Set<number>>();
  for (const note of score.notes) {
    const seen = onsets.get(note.bar);
    if (seen === undefined) onsets.set(note.bar, new Set([note.onsetTicks]));
    else seen.add(note.onsetTicks);
  }
  return new Map([...onsets].map(([bar, seen]) => [bar, seen.size]));
}

/** Breaks bars into systems that are as evenly filled as they can be; a system of several bars is at most a tenth wider than the page. */
export function planSystems(
  bars: readonly Bar[],
  slices: ReadonlyMap<BarId, number>,
  measures: PlanMeasures,
): readonly SystemPlan[] {
  const widths = bars.map((bar) => measures.perBar + measures.perSlice * Math.max(2, slices.get(bar.id) ?? 0));
  const best: { readonly cost: number; readonly start: number }[] = [{ cost: 0, start: 0 }];
  for (let end = 1; end <= bars.length; end += 1) best.push(cheapestSystem(end, bars, widths, measures.width, best));
  const plans: SystemPlan[] = [];
  for (let end = bars.length; end > 0; end = best[end]?.start ?? 0) {
    const start = best[end]?.start ?? 0;
    plans.push({ bars: bars.slice(start, end), neededWidth: sum(widths.slice(start, end)) });
  }
  return plans.reverse();
}

function cheapestSystem(
  end: number,
  bars: readonly Bar[],
  widths: readonly number[],
  pageWidth: number,
  best: readonly { readonly cost: number; readonly start: number }[],
): { readonly cost: number; readonly start: number } {
  let cheapest = { cost: Infinity, start: end - 1 };
  let width = 0;
  for (let start = end - 1; start >= Math.max(0, end - mostBars); start -= 1) {
    width += widths[start] as number;
    if (width > pageWidth * mostCrowded && start < end - 1) break;
    const slack = ((pageWidth - width) / pageWidth) * (width > pageWidth ? 3 : 1);
    const isLast = end === bars.length;
    const next = bars[end];
    const breaksWell = next !== undefined && (next.rehearsalMark !== null || next.startsRepeat);
    const cost = (best[start]?.cost ?? 0) + (isLast ? 0.5 : 1) * slack * slack + (breaksWell ? -0.05 : 0) + 0.02;
    if (cost < cheapest.cost) cheapest = { cost, start };
  }
  return cheapest;
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
