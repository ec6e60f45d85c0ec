import type { GridNote } from './quantise.ts';

/** Notes struck together that end together. **Units** the grid's, from the start of the piece. */
export interface VoiceEvent {
  readonly startUnits: number;
  readonly endUnits: number;
  /** From the highest to the lowest. */
  readonly notes: readonly GridNote[];
}

/** One voice: events that do not overlap, in order of time. */
export type VoiceLine = readonly VoiceEvent[];

/** The notes of a part without those that the grid brought together, and how many these were. */
interface Disentangled {
  readonly notes: readonly GridNote[];
  readonly merged: number;
}

/** One note of a pitch at a time: of two that begin together the longer is kept, and a note ends where its pitch is struck again. */
function disentangle(notes: readonly GridNote[]): Disentangled {
  const kept: GridNote[] = [];
  const lastOf = new Map<number, number>();
  let merged = 0;
  for (const note of [...notes].sort((a, b) => a.startUnits - b.startUnits)) {
    const place = lastOf.get(note.midi);
    const before = place === undefined ? undefined : kept[place];
    if (place !== undefined && before?.startUnits === note.startUnits) {
      kept[place] = { ...before, endUnits: Math.max(before.endUnits, note.endUnits) };
      merged += 1;
      continue;
    }
    if (place !== undefined && before !== undefined && before.endUnits > note.startUnits)
      kept[place] = { ...before, endUnits: note.startUnits };
    lastOf.set(note.midi, kept.length);
    kept.push(note);
  }
  return { notes: kept, merged };
}

function eventsOf(notes: readonly GridNote[]): VoiceEvent[] {
  const events = new Map<string, GridNote[]>();
  for (const note of notes) {
    const key = `${note.startUnits} ${note.endUnits}`;
    const together = events.get(key);
    if (together === undefined) events.set(key, [note]);
    else together.push(note);
  }
  const built = [...events.values()].map((together): VoiceEvent => {
    const sorted = together.sort((a, b) => b.midi - a.midi);
    const { startUnits, endUnits } = sorted[0] ?? { startUnits: 0, endUnits: 0 };
    return { startUnits, endUnits, notes: sorted };
  });
  return built.sort((a, b) => a.startUnits - b.startUnits || topOf(b) - topOf(a));
}

const topOf = (event: VoiceEvent): number => event.notes[0]?.midi ?? 0;

const heightOf = (line: VoiceLine): number =>
  line.reduce((sum, event) => sum + topOf(event), 0) / Math.max(1, line.length);

/** A part as voices that never overlap, the highest first: each event goes to the free voice that was last nearest in pitch. */
export function voicesOf(notes: readonly GridNote[]): {
  readonly lines: readonly VoiceLine[];
  readonly merged: number;
} {
  const disentangled = disentangle(notes);
  const lines: VoiceEvent[][] = [];
  for (const event of eventsOf(disentangled.notes)) {
    let best: VoiceEvent[] | null = null;
    let leastLeap = Infinity;
    for (const line of lines) {
      const last = line.at(-1);
      if (last === undefined || last.endUnits > event.startUnits) continue;
      const leap = Math.abs(topOf(last) - topOf(event));
      if (leap < leastLeap) [best, leastLeap] = [line, leap];
    }
    if (best === null) lines.push([event]);
    else best.push(event);
  }
  return { lines: lines.sort((a, b) => heightOf(b) - heightOf(a)), merged: disentangled.merged };
}
