import type { BarId, Score, TickRange } from '../../../music/index.ts';

/** A bar, or the part of it that the excerpt holds. */
export interface RowBar {
  readonly bar: BarId;
  readonly label: string;
  readonly startTicks: number;
  readonly endTicks: number;
}

/** Bars that lie side by side. */
export interface Row {
  readonly startTicks: number;
  readonly endTicks: number;
  readonly bars: readonly RowBar[];
}

/** The bars of an excerpt, the first and the last cut where it begins and ends. */
export const barsWithin = (score: Pick<Score, 'bars'>, range: TickRange): readonly RowBar[] =>
  score.bars
    .filter((bar) => bar.onsetTicks < range.endTicks && bar.onsetTicks + bar.lengthTicks > range.startTicks)
    .map((bar) => ({
      bar: bar.id,
      label: bar.label,
      startTicks: Math.max(bar.onsetTicks, range.startTicks),
      endTicks: Math.min(bar.onsetTicks + bar.lengthTicks, range.endTicks),
    }));

/** Bars laid into as few rows as a row's capacity allows, and those as even as can be; a bar is never cut. */
export function rowsOf(bars: readonly RowBar[], capacityTicks: number): readonly Row[] {
  const longest = Math.max(0, ...bars.map((bar) => bar.endTicks - bar.startTicks));
  const capacity = Math.max(capacityTicks, longest);
  const fewest = fill(bars, capacity).length;
  const total = bars.reduce((sum, bar) => sum + bar.endTicks - bar.startTicks, 0);
  const candidates = spans(bars).filter(
    (span) => span >= Math.max(longest, total / Math.max(1, fewest)) && span <= capacity,
  );
  const evenest = candidates.find((span) => fill(bars, span).length === fewest) ?? capacity;
  return fill(bars, evenest);
}

/** Every length that some run of neighbouring bars has, ascending. */
function spans(bars: readonly RowBar[]): number[] {
  const lengths = new Set<number>();
  bars.forEach((first, index) => {
    for (const last of bars.slice(index, index + 24)) lengths.add(last.endTicks - first.startTicks);
  });
  return [...lengths].sort((a, b) => a - b);
}

function fill(bars: readonly RowBar[], capacity: number): Row[] {
  const rows: Row[] = [];
  for (const bar of bars) {
    const row = rows.at(-1);
    if (row !== undefined && bar.endTicks - row.startTicks <= capacity) {
      rows[rows.length - 1] = { startTicks: row.startTicks, endTicks: bar.endTicks, bars: [...row.bars, bar] };
    } else {
      rows.push({ startTicks: bar.startTicks, endTicks: bar.endTicks, bars: [bar] });
    }
  }
  return rows;
}

/** The bar of a row that a moment lies in; its first for what lies before. */
export const barAt = (row: Row, ticks: number): RowBar =>
  row.bars.findLast((bar) => bar.startTicks <= ticks) ?? (row.bars[0] as RowBar);

/** Whether a moment lies in a row, its end left out. */
export const within = (row: Row, ticks: number): boolean => ticks >= row.startTicks && ticks < row.endTicks;
