import type { TickRange } from '../score/excerpt.ts';
import type { DynamicMark } from '../score/score.ts';
import { dynamicsByPlace } from './dynamics-of-notes.ts';
import type { PlacedDirection } from './frame-directions.ts';
import type { Slice } from './moments.ts';
import { indexAtOrAfter } from './sorted-search.ts';
import { numbersOf } from './span-numbers.ts';

type Level = Extract<DynamicMark, { kind: 'level' }>;
type Accent = Extract<DynamicMark, { kind: 'accent' }>;
type Hairpin = Extract<DynamicMark, { kind: 'hairpin' }>;

/** A stretch of a line with the marks that are for it; the same list for all stretches of one place. */
interface MarkedSlice<Mark extends DynamicMark> extends Slice {
  readonly own: readonly Mark[];
}

/** A line with its marks of one kind. */
interface MarkedLine<Mark extends DynamicMark> {
  readonly marks: readonly Mark[];
  readonly slices: readonly MarkedSlice<Mark>[];
}

function markedLine<Mark extends DynamicMark>(marks: readonly Mark[], slices: readonly Slice[]): MarkedLine<Mark> {
  const ownOf = dynamicsByPlace(marks);
  const marked = slices.map((slice) => ({ ...slice, own: ownOf(slice.notes.map(({ note }) => note)) }));
  const places = [...new Set(marked.map(({ own }) => own))];
  return { marks: marks.filter((mark) => places.some((own) => own.includes(mark))), slices: marked };
}

/** The stretch that sounds at a moment, or is the next to sound, of those that a mark is for. */
function sliceFrom<Mark extends DynamicMark>(
  { slices }: MarkedLine<Mark>,
  mark: Mark,
  ticks: number,
): Slice | undefined {
  const first = indexAtOrAfter(slices, ({ endTicks }) => endTicks, ticks + 1);
  for (let index = first; index < slices.length; index += 1)
    if (slices[index]?.own.includes(mark) === true) return slices[index];
  return undefined;
}

const isWithin =
  ({ startTicks, endTicks }: TickRange) =>
  ({ onsetTicks }: DynamicMark): boolean =>
    onsetTicks >= startTicks && onsetTicks < endTicks;

/** Each level where the line sounds: one that falls into a rest waits for the line's next note that it is for, unless another comes before it. */
function saidLevels(line: MarkedLine<Level>, range: TickRange): ReadonlyMap<number, Level> {
  const said = new Map<number, Level>();
  for (const mark of line.marks.filter(isWithin(range))) {
    const slice = sliceFrom(line, mark, mark.onsetTicks);
    if (slice !== undefined) said.set(Math.max(mark.onsetTicks, slice.startTicks), mark);
  }
  return said;
}

/** Levels with those where the line begins, or goes to a place in which others hold: the one in force there, unless the line comes with it. */
function withEntered(said: ReadonlyMap<number, Level>, { slices }: MarkedLine<Level>): ReadonlyMap<number, Level> {
  const placed = new Map(said);
  const waiting = [...said].sort(([left], [right]) => left - right);
  let before: readonly Level[] | undefined;
  let last: Level | undefined;
  for (const { own, startTicks } of slices) {
    while ((waiting[0]?.[0] ?? Infinity) <= startTicks) last = waiting.shift()?.[1];
    const entered = own === before ? undefined : own.findLast(({ onsetTicks }) => onsetTicks <= startTicks);
    before = own;
    if (entered === undefined || said.has(startTicks) || last?.level === entered.level) continue;
    placed.set(startTicks, entered);
    last = entered;
  }
  return placed;
}

function levels(marks: readonly Level[], slices: readonly Slice[], range: TickRange): readonly PlacedDirection[] {
  const line = markedLine(marks, slices);
  const placed = withEntered(saidLevels(line, range), line);
  return [...placed].map(([ticks, { level }]) => ({ ticks, direction: { kind: 'level', level } }));
}

function accents(marks: readonly Accent[], slices: readonly Slice[], range: TickRange): readonly PlacedDirection[] {
  const line = markedLine(marks.filter(isWithin(range)), slices);
  return line.marks
    .filter((mark) => sliceFrom(line, mark, mark.onsetTicks)?.startTicks === mark.onsetTicks)
    .map(({ onsetTicks, sign }) => ({ ticks: onsetTicks, direction: { kind: 'accent', sign } }));
}

/** Each hairpin during which the line sounds, cut at the range's edges. */
function hairpins(marks: readonly Hairpin[], slices: readonly Slice[], range: TickRange): readonly PlacedDirection[] {
  const line = markedLine(marks, slices);
  const cut = line.marks
    .map((mark) => ({
      mark,
      fromRank: Math.max(mark.onsetTicks, range.startTicks),
      toRank: Math.min(mark.endTicks, range.endTicks),
    }))
    .filter(
      ({ mark, fromRank, toRank }) =>
        toRank > fromRank && (sliceFrom(line, mark, fromRank)?.startTicks ?? Infinity) < toRank,
    );
  const numbers = numbersOf(cut);
  const edges = cut.flatMap(({ mark: { direction }, fromRank, toRank }, index): PlacedDirection[] => {
    const number = numbers[index] ?? 1;
    return [
      { ticks: fromRank, direction: { kind: 'hairpinStart', direction, number } },
      { ticks: toRank, direction: { kind: 'hairpinStop', number } },
    ];
  });
  const stopsFirst = (edge: PlacedDirection): number => (edge.direction.kind === 'hairpinStop' ? 0 : 1);
  return edges.sort((left, right) => stopsFirst(left) - stopsFirst(right));
}

/** The dynamics of one line within a range, of the parts and staves that its notes stand in; the level that was in force at the start stands at the line's first note. */
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
  return [
    ...hairpins(marks.filter(isOf('hairpin')), slices, range),
    ...levels(marks.filter(isOf('level')), slices, range),
    ...accents(marks.filter(isOf('accent')), slices, range),
  ];
}
