import type { NoteId } from '../basis/ids.ts';
import type { Fingerboard, SoundingNote } from '../score/score.ts';
import { barRest } from '../score/bar-rest.ts';
import type { HeadDetails, NoteValue, WrittenEvent, WrittenGrace, WrittenHead } from '../score/written.ts';
import { writtenSound, type ChainPlace } from './head-details.ts';
import type { EndedNote, Slice } from './moments.ts';
import { itemised, type MetricNode } from './meter-tree.ts';
import { valueOfUnits } from './note-values.ts';
import { noteStretches, restStretches } from './split-values.ts';
import { countWithin, plainCount, tupletsOf, type TickCount, type Tuplet } from './tuplets.ts';
import { meterTicks, type BarFrame } from './written-bars.ts';

/** A slice or a gap as far as it lies in one bar. **Units** ticks from the start of the bar's meter. */
interface Span {
  readonly startTicks: number;
  readonly endTicks: number;
  readonly notes: readonly EndedNote[];
}

interface Piece extends Span {
  readonly value: NoteValue;
  readonly isExact: boolean;
}

/** The events of one bar of one staff. */
export interface BarEvents {
  readonly events: readonly WrittenEvent[];
  /** **Units** ticks of the written score: where no value could say a length exactly. */
  readonly inexactAtTicks: readonly number[];
}

/** The bar's notes and, between them, its gaps. */
function spansOf(slices: readonly Slice[], frame: BarFrame): readonly Span[] {
  const toMeter = frame.phaseTicks - frame.startTicks;
  const spans: Span[] = [];
  let cursor = frame.startTicks;
  const push = (startTicks: number, endTicks: number, notes: readonly EndedNote[]): void => {
    if (endTicks > startTicks) spans.push({ startTicks: startTicks + toMeter, endTicks: endTicks + toMeter, notes });
  };
  for (const slice of slices) {
    const start = Math.max(slice.startTicks, frame.startTicks);
    const end = Math.min(slice.endTicks, frame.endTicks);
    push(cursor, start, []);
    push(start, end, slice.notes);
    cursor = Math.max(cursor, end);
  }
  push(cursor, frame.endTicks, []);
  return spans;
}

function cutAt(spans: readonly Span[], edges: readonly number[]): readonly Span[] {
  return spans.flatMap((span) => {
    const inner = edges.filter((edge) => edge > span.startTicks && edge < span.endTicks);
    const bounds = [span.startTicks, ...inner, span.endTicks];
    return bounds
      .slice(1)
      .map((endTicks, index) => ({ ...span, startTicks: bounds[index] ?? span.startTicks, endTicks }));
  });
}

/** How ticks are counted as values: plainly, or within a tuplet. */
interface Counting {
  readonly node: MetricNode;
  readonly count: TickCount;
  readonly tuplet: NoteValue['tuplet'];
}

const tupletCounting = (tuplet: Tuplet, outer: NoteValue['tuplet']): Counting => ({
  node: itemised(tuplet.actual, tuplet.itemUnits)(0),
  count: countWithin(tuplet),
  tuplet: { actual: (outer?.actual ?? 1) * tuplet.actual, normal: (outer?.normal ?? 1) * tuplet.normal },
});

const holderOf = ({ startTicks, endTicks }: Span, tuplets: readonly Tuplet[]): Tuplet | undefined =>
  tuplets.find((tuplet) => startTicks >= tuplet.startTicks && endTicks <= tuplet.endTicks);

/** The counting of the innermost tuplet that holds a span. */
function countingOf(span: Span, tuplets: readonly Tuplet[], plain: Counting): Counting {
  const outer = holderOf(span, tuplets);
  return outer === undefined ? plain : countingOf(span, outer.inner, tupletCounting(outer, plain.tuplet));
}

/** The value nearest to a length that none says exactly. */
function nearestValue(units: number): NoteValue {
  for (let whole = Math.max(1, Math.round(units)); whole > 1; whole -= 1) {
    const value = valueOfUnits(whole);
    if (value !== null) return value;
  }
  return { type: '256th', dots: 0, tuplet: null };
}

function piecesOf(span: Span, { node, count, tuplet }: Counting): readonly Piece[] {
  const { originTicks, units, perTicks } = count;
  const toUnits = (ticks: number): number => ((ticks - originTicks) * units) / perTicks;
  const toTicks = (places: number): number => originTicks + (places * perTicks) / units;
  const stretch = { startUnits: toUnits(span.startTicks), endUnits: toUnits(span.endTicks) };
  if (!Number.isInteger(stretch.startUnits) || !Number.isInteger(stretch.endUnits)) {
    return [{ ...span, value: nearestValue(stretch.endUnits - stretch.startUnits), isExact: false }];
  }
  const stretches = (span.notes.length === 0 ? restStretches : noteStretches)(stretch, node);
  return stretches.map(({ startUnits, endUnits }): Piece => {
    const exact = valueOfUnits(endUnits - startUnits);
    const value = exact ?? nearestValue(endUnits - startUnits);
    return {
      startTicks: toTicks(startUnits),
      endTicks: toTicks(endUnits),
      notes: span.notes,
      value: tuplet === null ? value : { ...value, tuplet },
      isExact: exact !== null,
    };
  });
}

function headOf({ note, endTicks }: EndedNote, piece: Span, { detailsOf, placeOf }: BarSetting): WrittenHead {
  const isTiedFromBefore = piece.startTicks > note.onsetTicks;
  const isTiedOn = piece.endTicks < endTicks;
  return {
    source: note.id,
    sound: writtenSound(note.sound),
    fingerboard: placeOf(note),
    isTiedFromBefore,
    isTiedOn,
    details: detailsOf(note, { isFirst: !isTiedFromBefore, isLast: !isTiedOn }),
  };
}

function edgeIn(piece: Span, { startTicks, endTicks }: Tuplet): 'start' | 'stop' | null {
  if (startTicks === piece.startTicks) return 'start';
  return endTicks === piece.endTicks ? 'stop' : null;
}

type TupletMarks = Pick<WrittenEvent, 'tupletEdge' | 'innerTuplet'>;
const noTupletMarks: TupletMarks = { tupletEdge: null, innerTuplet: null };

function tupletMarks(piece: Span, tuplets: readonly Tuplet[]): TupletMarks {
  const outer = holderOf(piece, tuplets);
  if (outer === undefined) return noTupletMarks;
  const inner = holderOf(piece, outer.inner);
  const edge = inner === undefined ? null : edgeIn(piece, inner);
  const innerTuplet =
    inner === undefined || edge === null ? null : { edge, actual: inner.actual, normal: inner.normal };
  return { tupletEdge: edgeIn(piece, outer), innerTuplet };
}

const noGraces: readonly WrittenGrace[] = [];

function eventOf(piece: Piece, tuplets: readonly Tuplet[], frame: BarFrame, setting: BarSetting): WrittenEvent {
  const toScore = frame.startTicks - frame.phaseTicks;
  const { startTicks, endTicks, notes, value } = piece;
  const inScore: Span = { startTicks: startTicks + toScore, endTicks: endTicks + toScore, notes };
  const struck = notes.filter(({ note }) => note.onsetTicks === inScore.startTicks);
  const graces = struck.length === 0 ? noGraces : struck.flatMap(({ note }) => setting.gracesOf(note.id));
  const { tupletEdge, innerTuplet } = tuplets.length === 0 ? noTupletMarks : tupletMarks(piece, tuplets);
  return {
    onsetTicks: startTicks - frame.phaseTicks,
    lengthTicks: endTicks - startTicks,
    value,
    tupletEdge,
    innerTuplet,
    isBarRest: false,
    heads: notes.map((ended) => headOf(ended, inScore, setting)),
    graces,
  };
}

/** The tuplets of a bar's spans. */
function tupletsIn(
  spans: readonly Span[],
  frame: BarFrame,
  { ticksPerQuarter, isNestedAt }: BarSetting,
): readonly Tuplet[] {
  const limits = { startTicks: frame.phaseTicks, endTicks: frame.phaseTicks + frame.written.lengthTicks };
  const toScore = frame.startTicks - frame.phaseTicks;
  return tupletsOf({
    edges: [...spans.map(({ startTicks }) => startTicks), limits.endTicks],
    spans: spans.map(({ startTicks, endTicks, notes }) => ({ startTicks, endTicks, isRest: notes.length === 0 })),
    tree: frame.tree,
    count: plainCount(ticksPerQuarter),
    limits,
    isNestedAt: (startTicks, endTicks) => isNestedAt(startTicks + toScore, endTicks + toScore),
  });
}

/** What the events of all bars have in common. */
export interface BarSetting {
  readonly ticksPerQuarter: number;
  /** Whether the source brackets tuplets within tuplets in a stretch. **Units** ticks of the written score. */
  readonly isNestedAt: (startTicks: number, endTicks: number) => boolean;
  readonly detailsOf: (note: SoundingNote, place: ChainPlace) => HeadDetails | null;
  readonly gracesOf: (note: NoteId) => readonly WrittenGrace[];
  readonly placeOf: (note: SoundingNote) => Fingerboard | null;
}

/** Whether one rest may stand for the bar: readers give it the meter's length. */
const isAsLongAsItsMeter = ({ written }: BarFrame, { ticksPerQuarter }: BarSetting): boolean =>
  written.lengthTicks === meterTicks(written, ticksPerQuarter);

/** The events of one bar: notes tied, gaps filled with rests, tuplets kept; they follow one another and sum to the bar's length. */
export function barEvents(slices: readonly Slice[], frame: BarFrame, setting: BarSetting): BarEvents {
  const spans = spansOf(slices, frame);
  if (spans.every(({ notes }) => notes.length === 0) && isAsLongAsItsMeter(frame, setting)) {
    return { events: [barRest(frame.written.lengthTicks)], inexactAtTicks: [] };
  }
  const tuplets = tupletsIn(spans, frame, setting);
  const bounds = [...tuplets, ...tuplets.flatMap(({ inner }) => inner)].flatMap(({ startTicks, endTicks }) => [
    startTicks,
    endTicks,
  ]);
  const plain = { node: frame.tree, count: plainCount(setting.ticksPerQuarter), tuplet: null };
  const cut = cutAt(
    spans,
    [...new Set(bounds)].sort((left, right) => left - right),
  );
  const pieces = cut.flatMap((span) => piecesOf(span, countingOf(span, tuplets, plain)));
  const toScore = frame.startTicks - frame.phaseTicks;
  return {
    events: pieces.map((piece) => eventOf(piece, tuplets, frame, setting)),
    inexactAtTicks: pieces.filter(({ isExact }) => !isExact).map(({ startTicks }) => startTicks + toScore),
  };
}
