import type { NoteValue, WrittenEvent, WrittenHead } from '../score/written.ts';
import type { EndedNote, Slice } from './moments.ts';
import { itemised, type MetricNode } from './meter-tree.ts';
import { unitsPerQuarter, valueOfUnits } from './note-values.ts';
import { noteStretches, restStretches } from './split-values.ts';
import { tupletsOf, type Tuplet } from './tuplets.ts';
import type { BarFrame } from './written-bars.ts';

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
  readonly originTicks: number;
  readonly unitsPerTick: { readonly numerator: number; readonly denominator: number };
  readonly tuplet: NoteValue['tuplet'];
}

const plainCounting = (frame: BarFrame, ticksPerQuarter: number): Counting => ({
  node: frame.tree,
  originTicks: 0,
  unitsPerTick: { numerator: unitsPerQuarter, denominator: ticksPerQuarter },
  tuplet: null,
});

const tupletCounting = ({ startTicks, endTicks, actual, normal, itemUnits }: Tuplet): Counting => ({
  node: itemised(actual, itemUnits)(0),
  originTicks: startTicks,
  unitsPerTick: { numerator: actual * itemUnits, denominator: endTicks - startTicks },
  tuplet: { actual, normal },
});

/** The value nearest to a length that none says exactly. */
function nearestValue(units: number): NoteValue {
  for (let whole = Math.max(1, Math.round(units)); whole > 1; whole -= 1) {
    const value = valueOfUnits(whole);
    if (value !== null) return value;
  }
  return { type: '256th', dots: 0, tuplet: null };
}

function piecesOf(span: Span, { node, originTicks, unitsPerTick, tuplet }: Counting): readonly Piece[] {
  const { numerator, denominator } = unitsPerTick;
  const toUnits = (ticks: number): number => ((ticks - originTicks) * numerator) / denominator;
  const toTicks = (units: number): number => originTicks + (units * denominator) / numerator;
  const stretch = { startUnits: toUnits(span.startTicks), endUnits: toUnits(span.endTicks) };
  if (!Number.isInteger(stretch.startUnits) || !Number.isInteger(stretch.endUnits)) {
    return [{ ...span, value: nearestValue(stretch.endUnits - stretch.startUnits), isExact: false }];
  }
  const stretches = (span.notes.length === 0 ? restStretches : noteStretches)(stretch, node);
  return stretches.map(({ startUnits, endUnits }) => {
    const value = valueOfUnits(endUnits - startUnits);
    const place = { ...span, startTicks: toTicks(startUnits), endTicks: toTicks(endUnits) };
    return { ...place, value: { ...(value ?? nearestValue(endUnits - startUnits)), tuplet }, isExact: value !== null };
  });
}

function headOf({ note, endTicks }: EndedNote, startTicks: number, pieceEndTicks: number): WrittenHead {
  const { sound } = note;
  return {
    source: note.id,
    sound: sound.kind === 'pitched' ? { kind: 'pitched', pitch: sound.sounding } : { kind: 'hit', hit: sound.hit },
    fingerboard: note.fingerboard,
    isTiedFromBefore: startTicks > note.onsetTicks,
    isTiedOn: pieceEndTicks < endTicks,
  };
}

const barRest = (lengthTicks: number): WrittenEvent => ({
  onsetTicks: 0,
  lengthTicks,
  value: { type: 'whole', dots: 0, tuplet: null },
  tupletEdge: null,
  isBarRest: true,
  heads: [],
});

function tupletEdge(piece: Piece, tuplets: readonly Tuplet[]): WrittenEvent['tupletEdge'] {
  if (tuplets.some(({ startTicks }) => startTicks === piece.startTicks)) return 'start';
  return tuplets.some(({ endTicks }) => endTicks === piece.endTicks) ? 'stop' : null;
}

function eventOf(piece: Piece, tuplets: readonly Tuplet[], frame: BarFrame): WrittenEvent {
  const toScore = frame.startTicks - frame.phaseTicks;
  const { startTicks, endTicks, notes, value } = piece;
  return {
    onsetTicks: startTicks - frame.phaseTicks,
    lengthTicks: endTicks - startTicks,
    value,
    tupletEdge: value.tuplet === null ? null : tupletEdge(piece, tuplets),
    isBarRest: false,
    heads: notes.map((ended) => headOf(ended, startTicks + toScore, endTicks + toScore)),
  };
}

/** The events of one bar: notes tied, gaps filled with rests, tuplets kept; they follow one another and sum to the bar's length. */
export function barEvents(slices: readonly Slice[], frame: BarFrame, ticksPerQuarter: number): BarEvents {
  const spans = spansOf(slices, frame);
  if (spans.every(({ notes }) => notes.length === 0) && !frame.written.isPartial) {
    return { events: [barRest(frame.written.lengthTicks)], inexactAtTicks: [] };
  }
  const limits = { startTicks: frame.phaseTicks, endTicks: frame.phaseTicks + frame.written.lengthTicks };
  const edges = [...spans.map(({ startTicks }) => startTicks), limits.endTicks];
  const tupletSpans = spans.map(({ startTicks, endTicks, notes }) => ({
    startTicks,
    endTicks,
    isRest: notes.length === 0,
  }));
  const tuplets = tupletsOf({ edges, spans: tupletSpans, tree: frame.tree, ticksPerQuarter, limits });
  const plain = plainCounting(frame, ticksPerQuarter);
  const cut = cutAt(
    spans,
    tuplets.flatMap(({ startTicks, endTicks }) => [startTicks, endTicks]),
  );
  const pieces = cut.flatMap((span) => {
    const tuplet = tuplets.find(
      ({ startTicks, endTicks }) => span.startTicks >= startTicks && span.endTicks <= endTicks,
    );
    return piecesOf(span, tuplet === undefined ? plain : tupletCounting(tuplet));
  });
  const toScore = frame.startTicks - frame.phaseTicks;
  return {
    events: pieces.map((piece) => eventOf(piece, tuplets, frame)),
    inexactAtTicks: pieces.filter(({ isExact }) => !isExact).map(({ startTicks }) => startTicks + toScore),
  };
}
