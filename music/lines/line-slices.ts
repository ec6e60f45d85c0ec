import type { TickRange } from '../score/excerpt.ts';
import type { SoundingNote } from '../score/score.ts';
import type { Reach } from './lengths.ts';
import { beatsOf } from './meter-tree.ts';
import { momentsOf, slicesOf, type EndedNote, type Moment, type Slice } from './moments.ts';
import { unitsPerQuarter } from './note-values.ts';
import { indexAtOrAfter } from './sorted-search.ts';
import type { BarFrame } from './written-bars.ts';

/** Where lines are written out. */
export interface SliceSetting {
  readonly ticksPerQuarter: number;
  readonly range: TickRange;
  readonly frames: readonly BarFrame[];
  readonly reach: Reach;
}

/** The first beat after an onset. **Units** ticks of the written score. */
function nextBeat(frames: readonly BarFrame[], ticksPerQuarter: number, onsetTicks: number): number {
  const frame = frames[indexAtOrAfter(frames, ({ startTicks }) => startTicks, onsetTicks + 1) - 1];
  if (frame === undefined) return Infinity;
  const toScore = frame.startTicks - frame.phaseTicks;
  const ends = beatsOf(frame.tree).map(
    (beat) => ((beat.startUnits + beat.lengthUnits) * ticksPerQuarter) / unitsPerQuarter + toScore,
  );
  return ends.find((end) => end > onsetTicks) ?? Infinity;
}

/** How far the notes of one moment reach. Hits end with their beat, or with the notes that are struck with them. */
function endedNotes(
  setting: SliceSetting,
  { notes, onsetTicks }: Moment,
  nextOnsetTicks: number,
): readonly EndedNote[] {
  const reachOfNote = (note: SoundingNote): number => Math.min(setting.reach(note, nextOnsetTicks), nextOnsetTicks);
  const pitchedEnds = notes.filter(({ sound }) => sound.kind === 'pitched').map(reachOfNote);
  const hitEnd = (note: SoundingNote): number =>
    pitchedEnds.length > 0
      ? Math.max(...pitchedEnds)
      : Math.min(reachOfNote(note), nextBeat(setting.frames, setting.ticksPerQuarter, onsetTicks));
  return notes.map((note) => ({ note, endTicks: note.sound.kind === 'hit' ? hitEnd(note) : reachOfNote(note) }));
}

/** A line's notes as stretches that never overlap: each is cut at the line's next onset. */
export function lineSlices(setting: SliceSetting, notes: readonly SoundingNote[]): readonly Slice[] {
  const moments = momentsOf(notes);
  return moments.flatMap((moment, index) => {
    const next = moments[index + 1]?.onsetTicks ?? setting.range.endTicks;
    return slicesOf(moment.onsetTicks, endedNotes(setting, moment, next));
  });
}

/** The stretches that a bar holds some of. */
export function slicesIn(slices: readonly Slice[], frame: BarFrame): readonly Slice[] {
  const first = indexAtOrAfter(slices, ({ endTicks }) => endTicks, frame.startTicks + 1);
  const after = indexAtOrAfter(slices, ({ startTicks }) => startTicks, frame.endTicks);
  return slices.slice(first, after);
}
