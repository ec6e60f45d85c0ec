import type { SoundingNote } from '../score/score.ts';

/** A note of a line with the moment at which its writing ends. */
export interface EndedNote {
  readonly note: SoundingNote;
  readonly endTicks: number;
}

/** A stretch in which the same notes of a line sound; ties join the stretches of one note. **Units** ticks of the written score. */
export interface Slice {
  readonly startTicks: number;
  readonly endTicks: number;
  readonly notes: readonly EndedNote[];
}

/** Notes of one line struck together. */
export interface Moment {
  readonly onsetTicks: number;
  readonly notes: readonly SoundingNote[];
}

/** The notes of a line gathered by onset, in order of time. */
export function momentsOf(notes: readonly SoundingNote[]): readonly Moment[] {
  const moments: { onsetTicks: number; notes: SoundingNote[] }[] = [];
  for (const note of notes) {
    const last = moments.at(-1);
    if (last?.onsetTicks === note.onsetTicks) last.notes.push(note);
    else moments.push({ onsetTicks: note.onsetTicks, notes: [note] });
  }
  return moments;
}

/** One moment cut wherever one of its notes ends before the others. */
export function slicesOf(onsetTicks: number, notes: readonly EndedNote[]): readonly Slice[] {
  const ends = [...new Set(notes.map(({ endTicks }) => endTicks))].sort((left, right) => left - right);
  return ends.map((endTicks, index) => ({
    startTicks: ends[index - 1] ?? onsetTicks,
    endTicks,
    notes: notes.filter((ended) => ended.endTicks >= endTicks),
  }));
}
