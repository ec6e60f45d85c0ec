import { assumedTempo } from '../../score/assumed-tempo.ts';
import type { TimedEvent } from './open-midi.ts';
import type { PlayedNote } from './pair-notes.ts';

/** How far apart neighbouring strings and the first and last string of one stroke are at most. **Units** seconds. **Source** none: chosen by us, about as fast as thumb and pick go. */
const longestGapSeconds = 0.035;
const longestStrokeSeconds = 0.14;
const fewestStrings = 3;

interface Tempo {
  readonly ticks: number;
  readonly secondsPerTick: number;
}

function temposOf(tracks: readonly (readonly TimedEvent[])[], ticksPerQuarter: number): readonly Tempo[] {
  const named = tracks
    .flat()
    .flatMap(({ ticks, event }): Tempo[] =>
      event.type === 'setTempo'
        ? [{ ticks, secondsPerTick: event.microsecondsPerBeat / 1_000_000 / ticksPerQuarter }]
        : [],
    )
    .sort((a, b) => a.ticks - b.ticks);
  return [{ ticks: 0, secondsPerTick: 60 / assumedTempo / ticksPerQuarter }, ...named];
}

/** Whether a note goes on from a stroke: a little later, in the same direction, while all before it sound on. */
function goesOn(stroke: readonly PlayedNote[], next: PlayedNote, secondsPerTick: number): boolean {
  const first = stroke[0];
  const last = stroke.at(-1);
  if (first === undefined || last === undefined || last.midi === next.midi) return false;
  const seconds = (from: PlayedNote): number => (next.startTicks - from.startTicks) * secondsPerTick;
  const rises = stroke.length === 1 || last.midi > first.midi;
  return (
    next.startTicks > last.startTicks &&
    seconds(last) <= longestGapSeconds &&
    seconds(first) <= longestStrokeSeconds &&
    (stroke.length === 1 || next.midi > last.midi === rises) &&
    stroke.every(({ endTicks }) => endTicks > next.startTicks)
  );
}

/** The notes of a part with each stroke across strings struck at the moment of its first note, and how many strokes there were. */
export interface GatheredStrums {
  readonly notes: readonly PlayedNote[];
  readonly strums: number;
}

function gathered(notes: readonly PlayedNote[], tempos: readonly Tempo[]): GatheredStrums {
  const strokes: PlayedNote[][] = [];
  let tempo = 0;
  for (const note of [...notes].sort((a, b) => a.startTicks - b.startTicks)) {
    while ((tempos[tempo + 1]?.ticks ?? Infinity) <= note.startTicks) tempo += 1;
    const stroke = strokes.at(-1);
    if (stroke !== undefined && goesOn(stroke, note, tempos[tempo]?.secondsPerTick ?? 0)) stroke.push(note);
    else strokes.push([note]);
  }
  const isStrum = ({ length }: readonly PlayedNote[]): boolean => length >= fewestStrings;
  return {
    notes: strokes.flatMap((stroke) => {
      const startTicks = stroke[0]?.startTicks ?? 0;
      return isStrum(stroke) ? stroke.map((note) => ({ ...note, startTicks })) : stroke;
    }),
    strums: strokes.filter(isStrum).length,
  };
}

/** Finds strokes across strings in each part: three notes or more of which each begins a moment after the one before, all in one direction and all sounding on. Written as they fall they would be runs of the shortest values. */
export function gatherStrums(
  parts: readonly (readonly PlayedNote[])[],
  tracks: readonly (readonly TimedEvent[])[],
  ticksPerQuarter: number,
): readonly GatheredStrums[] {
  const tempos = temposOf(tracks, ticksPerQuarter);
  return parts.map((notes) => gathered(notes, tempos));
}
