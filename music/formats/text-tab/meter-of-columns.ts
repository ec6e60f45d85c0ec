import { gcd } from '../../basis/fraction.ts';
import type { TabMeter } from './meter.ts';
import type { TabBar } from './tab-bar.ts';

/** Into how many equal places the columns of a bar divide it, a column more or less at its end; null where it has too few notes to say. */
function placesOf({ columns, width }: TabBar, lead: number): number | null {
  const from = Math.min(lead, columns[0] ?? 0);
  const drawn = width - from;
  if (columns.length < 2 || drawn <= 0) return null;
  const step = columns.reduce((common, column) => gcd(common, column - from), 0);
  const places = step > 0 ? Math.round(drawn / step) : 0;
  return places > 0 && Math.abs(drawn - places * step) <= 1 ? places : null;
}

const inThree = new Set([3, 6]);
const inFour = new Set([4, 8, 16]);
const fewestBars = 2;
/** So many notes say it in one bar, where there is no other. */
const fewestNotes = 5;

/** Three quarters where most bars are drawn in three or six equal places and hardly any in four, eight or sixteen; null where nothing speaks for it. **Source** none: chosen by us. */
export function meterOfColumns(bars: readonly TabBar[], lead: number): TabMeter | null {
  const places = bars.flatMap((bar) => placesOf(bar, lead) ?? []);
  const forThree = places.filter((count) => inThree.has(count)).length;
  const forFour = places.filter((count) => inFour.has(count)).length;
  const isOne = bars.length === 1 && (bars[0]?.columns.length ?? 0) >= fewestNotes;
  const isSaid = forThree >= (isOne ? 1 : fewestBars) && forThree > 2 * forFour && 2 * forThree > places.length;
  return isSaid ? { beats: 3, beatUnit: 4 } : null;
}
