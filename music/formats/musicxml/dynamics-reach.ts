import type { RawDynamic } from './raw-part.ts';

/** Whether a dynamic stands outside the staves of its part, between two of them, or where it would stand in either case. */
type Print = 'outside' | 'between' | 'usual';

function printOf({ staff, placement }: RawDynamic, staves: readonly number[]): Print {
  const isTop = staff === staves[0];
  const isBottom = staff === staves.at(-1);
  if ((isTop && placement === 'above') || (isBottom && placement === 'below')) return 'outside';
  return !isTop && placement === 'above' ? 'between' : 'usual';
}

const isSaid = ({ mark }: RawDynamic): boolean => mark.kind !== 'hairpinStop';

/** The staff that a dynamic may be for alone; null where it is surely for all. */
const staffOf = (dynamic: RawDynamic, staves: readonly number[]): number | null =>
  dynamic.staff !== null && staves.includes(dynamic.staff) && printOf(dynamic, staves) !== 'between'
    ? dynamic.staff
    : null;

/** How often each staff says a dynamic that may be for it alone. */
function countsOf(dynamics: readonly RawDynamic[], staves: readonly number[]): ReadonlyMap<number, number> {
  const counts = new Map<number, number>();
  for (const dynamic of dynamics.filter(isSaid)) {
    const staff = staffOf(dynamic, staves);
    if (staff !== null) counts.set(staff, (counts.get(staff) ?? 0) + 1);
  }
  return counts;
}

/** A staff with those below it that say nothing themselves; the first that speaks has those above it too. */
function withSilent(staff: number, staves: readonly number[], counts: ReadonlyMap<number, number>): readonly number[] {
  const speaking = staves.filter((each) => counts.has(each));
  return staves.filter((each) => (speaking.findLast((other) => other <= each) ?? speaking[0]) === staff);
}

const momentOf = ({ barIndex, offsetTicks }: RawDynamic): string => `${barIndex} ${offsetTicks}`;

/**
 * For which staves of its part each dynamic is, of the staves that sound; null where it is for all of them.
 * One that is printed outside the staves is for its own; one between them, above a lower staff, for all. One below an upper staff,
 * or without a place, is for its own staff, unless that staff speaks more than twice as often as any other and so for all of them.
 * What is for all leaves out staves that have a level of their own at that moment. Where nothing is surely for all, silent staves
 * go with the one above them that speaks.
 * **Source** common practice, no source: dynamics between the staves of one player are for both hands, those outside for one.
 */
export function dynamicsReach(
  dynamics: readonly RawDynamic[],
  staves: readonly number[],
): (dynamic: RawDynamic) => readonly number[] | null {
  const counts = countsOf(dynamics, staves);
  const speaksForAll = (staff: number): boolean =>
    [...counts].every(([other, count]) => other === staff || (counts.get(staff) ?? 0) > 2 * count);
  const isAnyForAll = dynamics.some((dynamic) => isSaid(dynamic) && staffOf(dynamic, staves) === null);
  const ownOf = (dynamic: RawDynamic): readonly number[] | null => {
    const staff = staffOf(dynamic, staves);
    if (staff === null || (printOf(dynamic, staves) === 'usual' && speaksForAll(staff))) return null;
    return isAnyForAll ? [staff] : withSilent(staff, staves, counts);
  };
  const ownLevels = new Map<string, number[]>();
  for (const dynamic of dynamics.filter(({ mark }) => mark.kind === 'level'))
    ownLevels.set(momentOf(dynamic), [...(ownLevels.get(momentOf(dynamic)) ?? []), ...(ownOf(dynamic) ?? [])]);
  return (dynamic) => {
    const spoken = dynamic.mark.kind === 'level' ? (ownLevels.get(momentOf(dynamic)) ?? []) : [];
    const reach = ownOf(dynamic) ?? staves.filter((staff) => !spoken.includes(staff));
    return reach.length === staves.length || reach.length === 0 ? null : reach;
  };
}
