import type { Piece, PieceBar, PieceNote } from '../form/piece.ts';
import { beatTicksOf, printedValues, type PrintedValue } from './values.ts';

/** A rest (no notes), or notes struck together, as one printed value. Onsets count from the bar's start. */
export interface VoiceEvent extends PrintedValue {
  readonly notes: readonly PieceNote[];
  readonly isTiedFromBefore: boolean;
  readonly isTiedOn: boolean;
  readonly isBarRest: boolean;
}

interface Stretch {
  readonly startTicks: number;
  readonly endTicks: number;
  readonly notes: readonly PieceNote[];
}

function stretchesOf(notes: readonly PieceNote[], bar: PieceBar): Stretch[] {
  const barEnd = bar.onsetTicks + bar.lengthTicks;
  const sounding = notes.filter(
    (note) => note.onsetTicks < barEnd && note.onsetTicks + note.lengthTicks > bar.onsetTicks,
  );
  const stretches: Stretch[] = [];
  let reachedTicks = 0;
  for (const onsetTicks of new Set(sounding.map((note) => note.onsetTicks))) {
    const together = sounding.filter((note) => note.onsetTicks === onsetTicks);
    const startTicks = Math.max(onsetTicks, bar.onsetTicks) - bar.onsetTicks;
    const lengthTicks = together[0]?.lengthTicks ?? 0;
    const endTicks = Math.min(onsetTicks + lengthTicks, barEnd) - bar.onsetTicks;
    if (startTicks > reachedTicks) stretches.push({ startTicks: reachedTicks, endTicks: startTicks, notes: [] });
    stretches.push({ startTicks, endTicks, notes: together });
    reachedTicks = endTicks;
  }
  if (reachedTicks < bar.lengthTicks)
    stretches.push({ startTicks: reachedTicks, endTicks: bar.lengthTicks, notes: [] });
  return stretches;
}

/** The beats that are divided into three: where an edge lies on a third of the beat. */
function tripletBeatsOf(stretches: readonly Stretch[], beatTicks: number): Set<number> {
  const edges = stretches.flatMap(({ startTicks, endTicks }) => [startTicks, endTicks]);
  const thirds = edges.filter((ticks) => ticks % (beatTicks / 8) !== 0);
  return new Set(thirds.map((ticks) => Math.floor(ticks / beatTicks)));
}

function eventsOfStretch(stretch: Stretch, bar: PieceBar, tripletBeats: ReadonlySet<number>): VoiceEvent[] {
  const { startTicks, endTicks, notes } = stretch;
  const first = notes[0];
  const isBarRest = first === undefined && endTicks - startTicks === bar.lengthTicks;
  const begunBefore = first !== undefined && first.onsetTicks < bar.onsetTicks;
  const goesOn = first !== undefined && first.onsetTicks + first.lengthTicks > bar.onsetTicks + bar.lengthTicks;
  const values = (
    first === undefined ? restPieces(startTicks, endTicks, bar) : [[startTicks, endTicks] as const]
  ).flatMap(([from, to]) => printedValues(from, to - from, bar.meter, tripletBeats));
  return values.map((value, index) => ({
    ...value,
    notes,
    isBarRest,
    isTiedFromBefore: first !== undefined && (index > 0 || begunBefore),
    isTiedOn: first !== undefined && (index < values.length - 1 || goesOn),
  }));
}

/** Rests show every beat that they cover, but for a rest of the whole bar. */
function restPieces(startTicks: number, endTicks: number, bar: PieceBar): (readonly [number, number])[] {
  if (endTicks - startTicks === bar.lengthTicks) return [[startTicks, endTicks]];
  const beatTicks = beatTicksOf(bar.meter);
  const pieces: (readonly [number, number])[] = [];
  let fromTicks = startTicks;
  while (fromTicks < endTicks) {
    const toTicks = Math.min((Math.floor(fromTicks / beatTicks) + 1) * beatTicks, endTicks);
    pieces.push([fromTicks, toTicks]);
    fromTicks = toTicks;
  }
  return pieces;
}

/** The printed values of one line in one bar; they sum to the bar's length. Empty where the line is silent and may be left out. */
export function voiceEvents(piece: Piece, letter: string, bar: PieceBar): VoiceEvent[] {
  const stretches = stretchesOf(
    piece.notes.filter((note) => note.letter === letter),
    bar,
  );
  const tripletBeats = tripletBeatsOf(stretches, beatTicksOf(bar.meter));
  return stretches.flatMap((stretch) => eventsOfStretch(stretch, bar, tripletBeats));
}
