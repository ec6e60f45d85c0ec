import type { Bar, Score, SoundingNote } from '../score/score.ts';
import { beatTicksOf, meterTicksOf, phasesOf } from './beats.ts';
import { placeOfLast } from './sorted.ts';
import type { Stretch } from './time-map.ts';

/** How much longer a fermata makes its note, as a share of the note. Common practice, no source. */
const longerBy = 0.75;
/** Short notes are held as if they lasted a beat, long ones as if they lasted four. Common practice, no source. */
const fewestBeats = 1;
const mostBeats = 4;

/** Where music waits: everything stops on what sounds from `startTicks` to `endTicks`. */
interface Hold {
  readonly startTicks: number;
  readonly endTicks: number;
  readonly extraTicks: number;
}

interface Beat {
  readonly startTicks: number;
  readonly lengthTicks: number;
}

/** The beat of a bar in which a moment lies; a bar longer than its meter goes on in its first beat's length. */
function beatAt(bar: Bar, phaseTicks: number, ticksPerQuarter: number, ticks: number): Beat {
  const beats = beatTicksOf(bar.meter, ticksPerQuarter);
  const meterTicks = meterTicksOf(bar.meter, ticksPerQuarter);
  const within = ticks - bar.onsetTicks + phaseTicks;
  const first = (beats[1] ?? meterTicks) - (beats[0] ?? 0);
  const index = beats.findLastIndex((beat) => beat <= within);
  const isBeyond = within >= meterTicks;
  const start = isBeyond ? meterTicks + Math.floor((within - meterTicks) / first) * first : (beats[index] ?? 0);
  const lengthTicks = isBeyond ? first : (beats[index + 1] ?? meterTicks) - start;
  return { startTicks: start + bar.onsetTicks - phaseTicks, lengthTicks };
}

const endOf = (note: SoundingNote): number => note.onsetTicks + note.lengthTicks;

type HeldScore = Pick<Score, 'bars' | 'notes' | 'ticksPerQuarter'>;

/** The fermatas of each moment as one: notes struck together wait together, at the end of the shortest. */
function heldNotes(score: HeldScore): readonly SoundingNote[] {
  const byOnset = new Map<number, SoundingNote>();
  for (const note of score.notes) {
    if (!note.techniques.includes('fermata')) continue;
    const other = byOnset.get(note.onsetTicks);
    if (other === undefined || note.lengthTicks < other.lengthTicks) byOnset.set(note.onsetTicks, note);
  }
  return [...byOnset.values()];
}

function holdOf(
  note: SoundingNote,
  score: HeldScore,
  onsets: readonly number[],
  phases: ReadonlyMap<Bar, number>,
): Hold | null {
  const endTicks = endOf(note);
  const bar = score.bars[placeOfLast(score.bars, ({ onsetTicks }) => onsetTicks, endTicks - 1)];
  if (bar === undefined) return null;
  const beatOf = (ticks: number): Beat => beatAt(bar, phases.get(bar) ?? 0, score.ticksPerQuarter, ticks);
  const last = beatOf(endTicks - 1);
  const struckTicks = onsets[placeOfLast(onsets, (onset) => onset, endTicks - 1)] ?? note.onsetTicks;
  const bounded = Math.min(mostBeats * last.lengthTicks, Math.max(fewestBeats * last.lengthTicks, note.lengthTicks));
  return {
    startTicks: Math.max(note.onsetTicks, struckTicks, last.startTicks),
    endTicks,
    extraTicks: longerBy * bounded,
  };
}

/**
 * Where a score's fermatas make it wait: everything plays in time up to the last thing that is struck, or the last beat
 * that begins, while the note with the fermata sounds; that is held. Holds that would overlap are one.
 */
function holdsOf(score: HeldScore): readonly Hold[] {
  const held = heldNotes(score);
  if (held.length === 0) return [];
  const onsets = [...new Set(score.notes.map((note) => note.onsetTicks))].sort((a, b) => a - b);
  const phases = phasesOf(score);
  const holds: Hold[] = [];
  const found = held.flatMap((note) => holdOf(note, score, onsets, phases) ?? []);
  for (const hold of found.sort((a, b) => a.startTicks - b.startTicks || b.extraTicks - a.extraTicks)) {
    if (hold.startTicks >= (holds.at(-1)?.endTicks ?? -Infinity)) holds.push(hold);
  }
  return holds;
}

/** The written ticks that fermatas lengthen. */
export function fermataStretches(score: HeldScore): readonly Stretch[] {
  return holdsOf(score).map(({ startTicks, endTicks, extraTicks }) => ({
    startTicks,
    endTicks,
    factor: 1 + extraTicks / (endTicks - startTicks),
  }));
}
