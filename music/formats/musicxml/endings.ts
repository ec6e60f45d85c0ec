import type { Bar } from '../../score/score.ts';
import type { IssueLog, RawPlace } from './issue-log.ts';
import type { RawBar, RawPart } from './raw-part.ts';

/** What all parts together say about a bar's place in repeats. */
type Row = Pick<RawBar, 'startsRepeat' | 'repeatTimes' | 'endingStart' | 'stopsEnding' | 'jumps'>;

/** One ending: its first and last bar, and the passes on which it sounds. */
interface Ending {
  readonly firstIndex: number;
  readonly lastIndex: number;
  readonly passes: readonly number[];
  /** Those of them that no ending names. */
  readonly unnamed: readonly number[];
  /** Nothing says where it stops. */
  readonly isUnstopped: boolean;
}

/** The endings of a score and the repeats that they stand for where no sign does. */
export interface WrittenEndings {
  readonly endings: readonly Ending[];
  /** The bars at whose ends a repeat is missing: another ending follows, and no sign leads back. */
  readonly impliedRepeats: ReadonlySet<number>;
}

function rowsOf(parts: readonly RawPart[]): Row[] {
  const count = Math.max(0, ...parts.map(({ bars }) => bars.length));
  return Array.from({ length: count }, (_, index): Row => {
    const bars = parts.flatMap((part) => part.bars[index] ?? []);
    return {
      startsRepeat: bars.some((bar) => bar.startsRepeat),
      repeatTimes: Math.max(0, ...bars.map((bar) => bar.repeatTimes)),
      endingStart: bars.find((bar) => bar.endingStart.length > 0)?.endingStart ?? [],
      stopsEnding: bars.some((bar) => bar.stopsEnding),
      jumps: bars.flatMap((bar) => bar.jumps),
    };
  });
}

/** Whether passes come after others, as those of the second ending do after those of the first. */
const areLater = (passes: readonly number[], others: readonly number[]): boolean =>
  Math.min(...passes) > Math.max(...others);

/** Where an ending that nothing stops ends: at the next ending of its repeat, at the sign that leads back from it, else with its first bar. */
function assumedLast(rows: readonly Row[], firstIndex: number, nextIndex: number): number {
  const passes = rows[firstIndex]?.endingStart ?? [];
  const next = rows[nextIndex]?.endingStart ?? [];
  const within = rows.slice(firstIndex, nextIndex);
  if (next.length > 0 && areLater(next, passes) && within.slice(1).every((row) => !row.startsRepeat))
    return nextIndex - 1;
  const back = within.findIndex((row, index) => row.repeatTimes > 0 || (index > 0 && row.startsRepeat));
  const leadsBack = (within[back]?.repeatTimes ?? 0) > 0;
  return leadsBack && passes.includes(1) ? firstIndex + back : firstIndex;
}

/** The first of the rows from one place up to another at which something is said; the end where it is nowhere. */
function firstWithin(rows: readonly Row[], from: number, to: number, isSaid: (row: Row) => boolean): number {
  for (let index = from; index < to; index += 1) {
    const row = rows[index];
    if (row !== undefined && isSaid(row)) return index;
  }
  return to;
}

function endingFrom(rows: readonly Row[], firstIndex: number): Ending {
  const nextIndex = firstWithin(rows, firstIndex + 1, rows.length, ({ endingStart }) => endingStart.length > 0);
  const stop = firstWithin(rows, firstIndex, nextIndex, ({ stopsEnding }) => stopsEnding);
  const isUnstopped = stop === nextIndex;
  const lastIndex = isUnstopped ? assumedLast(rows, firstIndex, nextIndex) : stop;
  return { firstIndex, lastIndex, passes: rows[firstIndex]?.endingStart ?? [], unnamed: [], isUnstopped };
}

const returns = ({ jumps }: Row): boolean => jumps.includes('daCapo') || jumps.includes('dalSegno');

/** Endings of which each takes the passes that neither it nor the next one names: a first ending before a fourth is the first to third. */
const withoutGaps = (endings: readonly Ending[]): Ending[] =>
  endings.map((ending, index) => {
    const { lastIndex, passes } = ending;
    const next = endings[index + 1];
    if (next?.firstIndex !== lastIndex + 1 || !areLater(next.passes, passes)) return ending;
    const last = Math.max(...passes);
    const unnamed = Array.from({ length: Math.min(...next.passes) - last - 1 }, (_, more) => last + 1 + more);
    return unnamed.length === 0 ? ending : { ...ending, passes: [...passes, ...unnamed], unnamed };
  });

/** The endings of all parts. */
export function endingsOf(parts: readonly RawPart[]): WrittenEndings {
  const rows = rowsOf(parts);
  const starts = rows.flatMap((row, index) => (row.endingStart.length > 0 ? [index] : []));
  const endings = withoutGaps(starts.map((index) => endingFrom(rows, index)));
  const impliedRepeats = endings.flatMap(({ lastIndex, passes }, index) => {
    const row = rows[lastIndex];
    const next = endings[index + 1];
    const isFollowed = next?.firstIndex === lastIndex + 1 && areLater(next.passes, passes);
    return isFollowed && row?.repeatTimes === 0 && !returns(row) ? [lastIndex] : [];
  });
  return { endings, impliedRepeats: new Set(impliedRepeats) };
}

const unnamedDetail = (unnamed: readonly number[]): string =>
  unnamed.length === 1
    ? `No ending is for pass ${unnamed[0] ?? ''}; it was taken to go through this one.`
    : `No ending is for passes ${unnamed[0] ?? ''} to ${unnamed.at(-1) ?? ''}; they were taken to go through this one.`;

/** Reports endings that nothing stops, passes without an ending, and repeats that only endings tell. */
export function reportEndings(
  { endings, impliedRepeats }: WrittenEndings,
  bars: readonly Bar[],
  partName: string,
  log: IssueLog,
): void {
  const place = (barIndex: number, offsetTicks: number): RawPlace => ({ partName, barIndex, offsetTicks });
  for (const { firstIndex, lastIndex, unnamed, isUnstopped } of endings) {
    if (unnamed.length > 0) log.add('value-repaired', 'note', unnamedDetail(unnamed), place(firstIndex, 0));
    if (isUnstopped)
      log.add(
        'span-unresolved',
        'warning',
        `Nothing says where the ending that begins here stops; it was taken to stop with bar ${bars[lastIndex]?.label ?? ''}.`,
        place(firstIndex, 0),
      );
  }
  for (const index of impliedRepeats)
    log.add(
      'value-repaired',
      'warning',
      'Another ending follows this one, and no sign leads back from it; it was taken to be repeated.',
      place(index, bars[index]?.lengthTicks ?? 0),
    );
}
