import type { LineId } from '../basis/ids.ts';
import type { Issue, WithIssues } from '../basis/issue.ts';
import { activeLines, type Line, type Split } from '../operations/split.ts';
import { ticksOfExcerpt, type Excerpt, type TickRange } from '../score/excerpt.ts';
import type { Score, SoundingNote } from '../score/score.ts';
import type { WrittenScore, WrittenStaff } from '../score/written.ts';
import { barEvents } from './bar-events.ts';
import { clefFor } from './clef.ts';
import { reachOf, type LengthMode, type Reach } from './lengths.ts';
import { lineNotes } from './line-notes.ts';
import { beatsOf } from './meter-tree.ts';
import { momentsOf, slicesOf, type EndedNote, type Moment, type Slice } from './moments.ts';
import { unitsPerQuarter } from './note-values.ts';
import { indexAtOrAfter } from './sorted-search.ts';
import { barFrames, type BarFrame } from './written-bars.ts';
import { graceIssues, inexactIssues } from './write-out-issues.ts';

/** What is to be written out, and how. */
export interface WriteOutOptions {
  /** The lines, a staff each in this order; all that are not retired, in the split's order, where none are named. */
  readonly lines?: readonly LineId[];
  readonly lengths: LengthMode;
}

interface Setting {
  readonly score: Score;
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
function endedNotes(setting: Setting, { notes, onsetTicks }: Moment, nextOnsetTicks: number): readonly EndedNote[] {
  const reachOfNote = (note: SoundingNote): number => Math.min(setting.reach(note, nextOnsetTicks), nextOnsetTicks);
  const pitchedEnds = notes.filter(({ sound }) => sound.kind === 'pitched').map(reachOfNote);
  const hitEnd = (note: SoundingNote): number =>
    pitchedEnds.length > 0
      ? Math.max(...pitchedEnds)
      : Math.min(reachOfNote(note), nextBeat(setting.frames, setting.score.ticksPerQuarter, onsetTicks));
  return notes.map((note) => ({ note, endTicks: note.sound.kind === 'hit' ? hitEnd(note) : reachOfNote(note) }));
}

/** The line's notes as stretches that never overlap: each is cut at the line's next onset. */
function lineSlices(setting: Setting, notes: readonly SoundingNote[]): readonly Slice[] {
  const moments = momentsOf(notes);
  return moments.flatMap((moment, index) => {
    const next = moments[index + 1]?.onsetTicks ?? setting.range.endTicks;
    return slicesOf(moment.onsetTicks, endedNotes(setting, moment, next));
  });
}

interface StaffWithIssues {
  readonly staff: WrittenStaff;
  readonly issues: readonly Issue[];
}

function slicesIn(slices: readonly Slice[], frame: BarFrame): readonly Slice[] {
  const first = indexAtOrAfter(slices, ({ endTicks }) => endTicks, frame.startTicks + 1);
  const after = indexAtOrAfter(slices, ({ startTicks }) => startTicks, frame.endTicks);
  return slices.slice(first, after);
}

function staffOf(setting: Setting, split: Pick<Split, 'marks'>, line: Line): StaffWithIssues {
  const { score, frames, range } = setting;
  const wholeLine = lineNotes(score, split, line.id).map(({ note }) => note);
  const notes = wholeLine.filter(({ onsetTicks }) => onsetTicks >= range.startTicks && onsetTicks < range.endTicks);
  const slices = lineSlices(setting, notes);
  const bars = frames.map((frame) => barEvents(slicesIn(slices, frame), frame, score.ticksPerQuarter));
  const inexact = bars.flatMap(({ inexactAtTicks }) => inexactAtTicks);
  const staff = {
    line: line.id,
    name: line.name,
    letter: line.letter,
    clef: clefFor(wholeLine, line.role === 'percussion'),
    bars: bars.map(({ events }) => events),
  };
  return { staff, issues: [...graceIssues(score, notes, line.name), ...inexactIssues(score, inexact, line.name)] };
}

function chosenLines(split: Pick<Split, 'lines'>, wanted: readonly LineId[] | undefined): readonly Line[] {
  if (wanted === undefined) return activeLines(split);
  return wanted.flatMap((id) => split.lines.find((line) => line.id === id) ?? []);
}

/** The lines of an excerpt as an ensemble score at sounding pitch: a staff each, gaps filled with rests, every bar summing to its own length, every head naming its source note. Notes that began before the excerpt are not struck again. **Errors** as issues: `no-music`, `element-left-out`, `value-repaired`. */
export function writeOut(
  score: Score,
  split: Pick<Split, 'lines' | 'marks'>,
  excerpt: Excerpt,
  options: WriteOutOptions,
): WithIssues<WrittenScore> {
  const empty = { title: score.title, ticksPerQuarter: score.ticksPerQuarter, bars: [], staves: [] };
  const range = ticksOfExcerpt(score, excerpt);
  if (range === null) {
    const detail =
      'The excerpt names a bar that the score does not have, or ends before it begins; nothing was written.';
    return { value: empty, issues: [{ code: 'no-music', where: { kind: 'file' }, severity: 'error', detail }] };
  }
  const frames = barFrames(score, range);
  const setting = { score, range, frames, reach: reachOf(score, options.lengths) };
  const staves = chosenLines(split, options.lines).map((line) => staffOf(setting, split, line));
  return {
    value: { ...empty, bars: frames.map(({ written }) => written), staves: staves.map(({ staff }) => staff) },
    issues: staves.flatMap(({ issues }) => issues),
  };
}
