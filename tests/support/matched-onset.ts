import { dot } from './least-squares.ts';

const searchedSeconds = 0.02;
const matchedSeconds = 0.02;

/** A stretch of a signal that begins at `start`; silence beyond its ends. */
function stretchOf(signal: Float32Array, start: number, length: number): Float32Array {
  const stretch = new Float32Array(length);
  const from = Math.max(0, -start);
  const to = Math.min(length, signal.length - start);
  if (to > from) stretch.set(signal.subarray(start + from, start + to), from);
  return stretch;
}

/** Directions at right angles that span the same as the columns. */
function orthogonal(columns: readonly Float32Array[]): readonly Float32Array[] {
  const directions: Float32Array[] = [];
  for (const column of columns) {
    const rest = without(column, directions);
    const size = Math.sqrt(dot(rest, rest));
    if (size > 1e-7) directions.push(rest.map((value) => value / size));
  }
  return directions;
}

function without(signal: Float32Array, directions: readonly Float32Array[]): Float32Array {
  const rest = Float32Array.from(signal);
  for (const direction of directions) {
    const share = dot(rest, direction);
    for (let index = 0; index < rest.length; index += 1) rest[index]! -= share * direction[index]!;
  }
  return rest;
}

/** A note with its own render, from its onset on, and where it should be. **Units** seconds. */
export interface PlacedNote {
  readonly own: Float32Array;
  /** Where another program has it. */
  readonly theirSeconds: number;
  /** Where the performance has it. */
  readonly ourSeconds: number;
}

/** Those of some notes that sound in the window in which a note is looked for. */
const soundingAbout = (note: PlacedNote, all: readonly PlacedNote[], sampleRate: number): readonly PlacedNote[] =>
  all.filter(
    (other) =>
      other !== note &&
      other.ourSeconds < note.theirSeconds + searchedSeconds + matchedSeconds &&
      other.ourSeconds + other.own.length / sampleRate > note.theirSeconds - searchedSeconds,
  );

/**
 * How far from the other program's place a note's own render explains most of what the renders of all others leave of the
 * mix: least squares in a window about the onset, 20 ms to either side. **Units** seconds.
 */
export function latenessOf(
  mix: Float32Array,
  note: PlacedNote,
  all: readonly PlacedNote[],
  sampleRate: number,
): number {
  const searched = Math.round(searchedSeconds * sampleRate);
  const start = Math.round(note.theirSeconds * sampleRate) - searched;
  const length = 2 * searched + Math.round(matchedSeconds * sampleRate);
  const columns = soundingAbout(note, all, sampleRate).map(({ own, ourSeconds }) =>
    stretchOf(own, start - Math.ceil(ourSeconds * sampleRate - 1e-6), length),
  );
  const directions = orthogonal(columns);
  const left = without(stretchOf(mix, start, length), directions);
  let best = { share: -1, late: NaN };
  for (let late = -searched; late <= searched; late += 1) {
    const own = stretchOf(note.own, -searched - late, length);
    const free = directions.reduce((rest, direction) => rest - dot(own, direction) ** 2, dot(own, own));
    const share = dot(own, left) ** 2 / free;
    if (share > best.share) best = { share, late };
  }
  return best.late / sampleRate;
}
