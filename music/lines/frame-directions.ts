import type { Score } from '../score/score.ts';
import type { WrittenDirection } from '../score/written.ts';
import { indexAtOrAfter } from './sorted-search.ts';
import type { BarFrame } from './written-bars.ts';

/** Leaves out the moment of each member of a union, keeping the union. */
type WithoutMoment<Row> = Row extends unknown ? Omit<Row, 'onsetTicks'> : never;

/** Something to print at a moment of the written score. */
export interface PlacedDirection {
  /** **Units** ticks of the written score. */
  readonly ticks: number;
  readonly direction: WithoutMoment<WrittenDirection>;
}

/** Directions shared out to the bars in which they stand, each list in order of time; what stands at the very end is in the last bar. */
export function byFrame(
  placed: readonly PlacedDirection[],
  frames: readonly BarFrame[],
): readonly (readonly WrittenDirection[])[] {
  const lists = frames.map((): WrittenDirection[] => []);
  for (const { ticks, direction } of [...placed].sort((left, right) => left.ticks - right.ticks)) {
    const index = indexAtOrAfter(frames, ({ startTicks }) => startTicks, ticks + 1) - 1;
    const frame = frames[index];
    if (frame === undefined || ticks > frame.endTicks) continue;
    lists[index]?.push({ ...direction, onsetTicks: ticks - frame.startTicks });
  }
  return lists;
}

/** What holds from its moment on, within a range: what was in force at the start stands there again. */
export function inForce<Mark extends { readonly onsetTicks: number }>(
  marks: readonly Mark[],
  { startTicks, endTicks }: { readonly startTicks: number; readonly endTicks: number },
): readonly Mark[] {
  const within = marks.filter(({ onsetTicks }) => onsetTicks >= startTicks && onsetTicks < endTicks);
  const before = marks.findLast(({ onsetTicks }) => onsetTicks < startTicks);
  if (before === undefined || within[0]?.onsetTicks === startTicks) return within;
  return [{ ...before, onsetTicks: startTicks }, ...within];
}

/** Words that are said otherwise: jumps by signs, capos by the sounding pitch. */
const saidOtherwise = new Set(['jump', 'capo']);

/** What is printed once for all lines within a range: tempos, swing, words and chord symbols. */
export function sharedDirections(
  score: Score,
  range: { readonly startTicks: number; readonly endTicks: number },
): readonly PlacedDirection[] {
  const isWithin = ({ onsetTicks }: { readonly onsetTicks: number }): boolean =>
    onsetTicks >= range.startTicks && onsetTicks < range.endTicks;
  const words = score.words.filter((word) => isWithin(word) && !saidOtherwise.has(word.kind));
  const swings = inForce(score.swings, range).filter(
    ({ onsetTicks, isAssumed }) => !isAssumed || !words.some((word) => word.onsetTicks === onsetTicks),
  );
  return [
    ...inForce(score.tempos, range).map(({ onsetTicks, quartersPerMinute }): PlacedDirection => ({
      ticks: onsetTicks,
      direction: { kind: 'tempo', quartersPerMinute },
    })),
    ...distinctTexts(words).map(({ onsetTicks, text }): PlacedDirection => ({
      ticks: onsetTicks,
      direction: { kind: 'words', text },
    })),
    ...swings.map(({ onsetTicks, long, short, unit }): PlacedDirection => ({
      ticks: onsetTicks,
      direction: { kind: 'swing', swing: { long, short, unit } },
    })),
    ...score.chordSymbols.filter(isWithin).map(({ onsetTicks, ...symbol }): PlacedDirection => ({
      ticks: onsetTicks,
      direction: { kind: 'chordSymbol', symbol },
    })),
  ];
}

/** Words of several staves that say the same at once, once. */
function distinctTexts<Word extends { readonly onsetTicks: number; readonly text: string }>(
  words: readonly Word[],
): readonly Word[] {
  return [...new Map(words.map((word) => [`${word.onsetTicks} ${word.text}`, word])).values()];
}
