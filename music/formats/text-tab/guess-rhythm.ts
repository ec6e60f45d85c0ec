import { barLength, beatLength, divisions, isCompound, type TabMeter } from './meter.ts';

/** A grid of time that a bar may be counted in: the length of a slot, and how far it is from plain. **Units** divisions. */
interface Grid {
  readonly slot: number;
  readonly rank: number;
}

/** The grids from plain to fine: beats, then their halves, thirds (of plain beats), quarters, sixths and eighths. */
function gridsOf(meter: TabMeter): Grid[] {
  const beat = beatLength(meter);
  const slots = isCompound(meter)
    ? [beat, beat / 3, beat / 6, beat / 12]
    : [beat, beat / 2, beat / 3, beat / 4, beat / 6, beat / 8];
  return slots.flatMap((slot, rank) =>
    Number.isInteger(slot) && barLength(meter) % slot === 0 ? [{ slot, rank }] : [],
  );
}

interface Candidate {
  readonly onsets: readonly number[];
  readonly cost: number;
}

/** Costs in eighths of a column, so that they are whole. */
const perColumn = 8;
const rankCost = 16;
const widthCost = 16;
/** Equal distances that come out unequal, and long distances in thirds, are what hardly anybody means. */
const unevenCost = 40;

/** How many moments stand in the middle of their neighbours by their columns, and do not by their onsets. */
function unevenness(columns: readonly number[], onsets: readonly number[]): number {
  const isMiddle = (values: readonly number[], index: number): boolean =>
    2 * (values[index] ?? 0) === (values[index - 1] ?? NaN) + (values[index + 1] ?? NaN);
  return columns.filter((_, index) => isMiddle(columns, index) && !isMiddle(onsets, index)).length;
}

/** How many distances are longer than a beat and no beats: as rare in thirds as they are plain in halves. */
const longThirds = (onsets: readonly number[], beat: number): number =>
  onsets.filter((onset, index) => {
    const gap = onset - (onsets[index - 1] ?? onset);
    return gap > beat && (2 * gap) % beat !== 0;
  }).length;

/** The columns snapped to a grid, or null where two would meet or one would leave the bar. */
function snapped(columns: readonly number[], width: number, { slot }: Grid, meter: TabMeter): Candidate | null {
  const length = barLength(meter);
  const slots = length / slot;
  const onsets: number[] = [];
  let worst = 0;
  let before = -1;
  for (const column of columns) {
    const place = (column * slots) / width;
    const at = Math.round(place);
    if (at <= before || at >= slots) return null;
    worst = Math.max(worst, Math.abs(place - at) * (width / slots));
    onsets.push(at * slot);
    before = at;
  }
  const rarities = unevenness(columns, onsets) + (isCompound(meter) ? 0 : longThirds(onsets, beatLength(meter)));
  return { onsets, cost: Math.round(worst * perColumn * 2) + rarities * unevenCost };
}

/** The onsets of moments by their columns, quantised to the simplest grid of the bar that keeps their order: of grids and of widths a column or two about the drawn one, the pair that moves the moments least and is plainest; of equals the plainer grid. */
export function guessOnsets(columns: readonly number[], width: number, lead: number, meter: TabMeter): number[] {
  const length = barLength(meter);
  const moved = columns.map((column) => column - lead);
  const drawn = Math.max(1, width - lead);
  let best: Candidate | null = null;
  for (const grid of gridsOf(meter)) {
    for (const off of [0, 1, -1, 2, -2]) {
      if (drawn + off < 1) continue;
      const found = snapped(moved, drawn + off, grid, meter);
      if (found === null) continue;
      const cost = found.cost + grid.rank * rankCost + Math.abs(off) * widthCost;
      if (best === null || cost < best.cost) best = { onsets: found.onsets, cost };
    }
  }
  return best === null ? crowded(columns.length, length) : [...best.onsets];
}

/** As many moments as no grid holds, one after the other in equal short values. */
function crowded(count: number, length: number): number[] {
  const slot = [divisions / 8, divisions / 16].find((value) => value * count <= length) ?? divisions / 16;
  return Array.from({ length: count }, (_, index) => index * slot);
}
