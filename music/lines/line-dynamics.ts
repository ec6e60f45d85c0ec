import type { TickRange } from '../score/excerpt.ts';
import type { DynamicMark, SoundingNote } from '../score/score.ts';
import { inForce, type PlacedDirection } from './frame-directions.ts';
import type { Slice } from './moments.ts';
import { indexAtOrAfter } from './sorted-search.ts';
import { numbersOf } from './span-numbers.ts';

type Level = Extract<DynamicMark, { kind: 'level' }>;
type Accent = Extract<DynamicMark, { kind: 'accent' }>;
type Hairpin = Extract<DynamicMark, { kind: 'hairpin' }>;

/** The stretch of the line that sounds at a moment or is the next one to sound. */
const sliceFrom = (slices: readonly Slice[], ticks: number): Slice | undefined =>
  slices[indexAtOrAfter(slices, ({ endTicks }) => endTicks, ticks + 1)];

/** Each level where the line sounds: one that falls into a rest waits for the line's next note, unless another comes before it. */
function levels(marks: readonly Level[], slices: readonly Slice[]): readonly PlacedDirection[] {
  const moved = marks.flatMap(({ onsetTicks, level }) => {
    const slice = sliceFrom(slices, onsetTicks);
    return slice === undefined ? [] : [{ ticks: Math.max(onsetTicks, slice.startTicks), level, onsetTicks }];
  });
  const lastMoment = new Map(moved.map(({ ticks, onsetTicks }) => [ticks, onsetTicks]));
  return moved
    .filter(({ ticks, onsetTicks }) => lastMoment.get(ticks) === onsetTicks)
    .map(({ ticks, level }) => ({ ticks, direction: { kind: 'level', level } }));
}

const accents = (marks: readonly Accent[], slices: readonly Slice[]): readonly PlacedDirection[] =>
  marks
    .filter(({ onsetTicks }) => sliceFrom(slices, onsetTicks)?.startTicks === onsetTicks)
    .map(({ onsetTicks, sign }) => ({ ticks: onsetTicks, direction: { kind: 'accent', sign } }));

/** Each hairpin during which the line sounds, cut at the range's edges. */
function hairpins(marks: readonly Hairpin[], slices: readonly Slice[], range: TickRange): readonly PlacedDirection[] {
  const cut = marks
    .map(({ onsetTicks, endTicks, direction }) => ({
      fromRank: Math.max(onsetTicks, range.startTicks),
      toRank: Math.min(endTicks, range.endTicks),
      direction,
    }))
    .filter(
      ({ fromRank, toRank }) => toRank > fromRank && (sliceFrom(slices, fromRank)?.startTicks ?? Infinity) < toRank,
    );
  const numbers = numbersOf(cut);
  const edges = cut.flatMap(({ fromRank, toRank, direction }, index): PlacedDirection[] => {
    const number = numbers[index] ?? 1;
    return [
      { ticks: fromRank, direction: { kind: 'hairpinStart', direction, number } },
      { ticks: toRank, direction: { kind: 'hairpinStop', number } },
    ];
  });
  const stopsFirst = (edge: PlacedDirection): number => (edge.direction.kind === 'hairpinStop' ? 0 : 1);
  return edges.sort((left, right) => stopsFirst(left) - stopsFirst(right));
}

/** The dynamics of the parts that notes stand in. */
export function dynamicsFor(marks: readonly DynamicMark[], notes: readonly SoundingNote[]): readonly DynamicMark[] {
  if (marks.every(({ parts }) => parts === undefined)) return marks;
  const own = new Set(notes.flatMap(({ voices }) => voices.map(({ part }) => part)));
  return marks.filter(({ parts }) => parts === undefined || parts.some((part) => own.has(part)));
}

/** The dynamics of one line within a range; the level that was in force at the start stands at the line's first note. */
export function lineDynamics(
  marks: readonly DynamicMark[],
  slices: readonly Slice[],
  range: TickRange,
): readonly PlacedDirection[] {
  if (marks.length === 0 || slices.length === 0) return [];
  const isOf =
    <Kind extends DynamicMark['kind']>(kind: Kind) =>
    (mark: DynamicMark): mark is Extract<DynamicMark, { kind: Kind }> =>
      mark.kind === kind;
  const isWithin = ({ onsetTicks }: Accent): boolean => onsetTicks >= range.startTicks && onsetTicks < range.endTicks;
  return [
    ...hairpins(marks.filter(isOf('hairpin')), slices, range),
    ...levels(inForce(marks.filter(isOf('level')), range), slices),
    ...accents(marks.filter(isOf('accent')).filter(isWithin), slices),
  ];
}
