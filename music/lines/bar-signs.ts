import type { TickRange } from '../score/excerpt.ts';
import type { BarId } from '../basis/ids.ts';
import type { Bar, Score } from '../score/score.ts';
import type { BarSigns } from '../score/written.ts';

/** Bars from the start of a repeat to the last bar of its endings. */
interface RepeatGroup {
  readonly first: number;
  readonly last: number;
  readonly isStartSaid: boolean;
}

/** The repeats of a score; one that is never closed reaches to the end. */
function repeatGroups(bars: readonly Bar[]): readonly RepeatGroup[] {
  const groups: RepeatGroup[] = [];
  let first = 0;
  let isStartSaid = false;
  for (let index = 0; index < bars.length; index += 1) {
    if (bars[index]?.startsRepeat === true) [first, isStartSaid] = [index, true];
    if ((bars[index]?.repeatTimes ?? 0) === 0) continue;
    while ((bars[index + 1]?.endings.length ?? 0) > 0 && bars[index + 1]?.startsRepeat === false) index += 1;
    groups.push({ first, last: index, isStartSaid });
    [first, isStartSaid] = [index + 1, false];
  }
  return isStartSaid ? [...groups, { first, last: bars.length - 1, isStartSaid }] : groups;
}

const noRepeat = { startsRepeat: false, repeatTimes: 0, repeatsAfterJump: false, endings: [] };

const isCovered = (bar: Bar | undefined, { startTicks, endTicks }: TickRange): boolean =>
  bar === undefined || (bar.onsetTicks >= startTicks && bar.onsetTicks + bar.lengthTicks <= endTicks);

/** Whether every place that a jump leads from or to lies within the range. */
function keepsJumps(bars: readonly Bar[], range: TickRange): boolean {
  const jumping = bars.filter(({ jumps }) => jumps.length > 0);
  const fromTop = jumping.some(({ jumps }) => jumps.includes('daCapo')) ? bars.slice(0, 1) : [];
  return [...jumping, ...fromTop].every((bar) => isCovered(bar, range));
}

/** The signs of each bar as far as they make sense within a range: a repeat with its endings is kept where all of it lies there, jumps where all of them do. */
export function signsIn(
  { bars, repeatsAfterJump }: Pick<Score, 'bars' | 'repeatsAfterJump'>,
  range: TickRange,
): readonly BarSigns[] {
  const again = new Set<BarId>(repeatsAfterJump);
  const withJumps = keepsJumps(bars, range);
  const signs = bars.map(({ id, startsRepeat, repeatTimes, endings, jumps, rehearsalMark, onsetTicks }) => ({
    startsRepeat,
    repeatTimes,
    repeatsAfterJump: again.has(id),
    endings,
    jumps: withJumps ? jumps : [],
    rehearsalMark: onsetTicks >= range.startTicks ? rehearsalMark : null,
  }));
  const isKept = ({ first, last }: RepeatGroup): boolean =>
    bars.slice(first, last + 1).every((bar) => isCovered(bar, range));
  const firstInRange = bars.findIndex((bar) => isCovered(bar, range));
  let wasDropped = false;
  for (const group of repeatGroups(bars)) {
    const kept = isKept(group);
    for (let index = group.first; index <= group.last && !kept; index += 1) {
      signs[index] = { ...signs[index], ...noRepeat } as BarSigns & { endings: readonly number[] };
    }
    const start = signs[group.first];
    if (kept && !group.isStartSaid && wasDropped && group.first > firstInRange && start !== undefined) {
      signs[group.first] = { ...start, startsRepeat: true };
    }
    wasDropped = !kept;
  }
  return signs;
}
