import type { LineId, NoteId } from '../basis/ids.ts';
import { activeLines, linesOfNote, type Split } from '../operations/split.ts';
import type { Score, SoundingNote } from '../score/score.ts';

/** What speaks against the line that a note is on. */
export interface Doubts {
  /** Another line from whose last note it is no further off than from the last of its own; null where there is none. */
  readonly rival: LineId | null;
  /** The bar in which its line's last note before it stands; null where it is the line's first. */
  readonly lineLastHeardIn: SoundingNote['bar'] | null;
  /** From its line's last note; null where it is the first, or a hit is involved. **Units** semitones, never negative. */
  readonly leapSemitones: number | null;
  /** How many other notes of its line begin together with it. */
  readonly together: number;
}

/** A rival may be this much further off: so little does not decide. */
const nearlySemitones = 1;

const midiOf = (note: SoundingNote | undefined): number | null =>
  note?.sound.kind === 'pitched' ? note.sound.soundingMidi : null;

function distance(from: SoundingNote | undefined, to: SoundingNote): number | null {
  const [left, right] = [midiOf(from), midiOf(to)];
  return left === null || right === null ? null : Math.abs(right - left);
}

/** The last note of each line before a moment, looking back no further than needed; of a chord, the note nearest to the one asked about. */
function lastNotes(notes: readonly SoundingNote[], split: Split, at: SoundingNote): ReadonlyMap<LineId, SoundingNote> {
  const wanted = new Set(activeLines(split).map(({ id }) => id));
  const last = new Map<LineId, SoundingNote>();
  for (let index = notes.indexOf(at) - 1; index >= 0; index--) {
    const note = notes[index] as SoundingNote;
    if (note.onsetTicks >= at.onsetTicks) continue;
    for (const line of linesOfNote(split, note.id)) {
      if (!wanted.has(line)) continue;
      const known = last.get(line);
      if (known === undefined) last.set(line, note);
      else if (known.onsetTicks === note.onsetTicks && (distance(note, at) ?? 128) < (distance(known, at) ?? 128))
        last.set(line, note);
    }
    if (last.size === wanted.size) break;
  }
  return last;
}

function rivalOf(last: ReadonlyMap<LineId, SoundingNote>, own: readonly LineId[], at: SoundingNote): LineId | null {
  const ownDistance = Math.min(128, ...own.flatMap((line) => distance(last.get(line), at) ?? []));
  let best: { readonly line: LineId; readonly distance: number } | null = null;
  for (const [line, note] of last) {
    const semitones = own.includes(line) ? null : distance(note, at);
    if (semitones === null || semitones > ownDistance + nearlySemitones) continue;
    if (best === null || semitones < best.distance) best = { line, distance: semitones };
  }
  return best?.line ?? null;
}

/** What speaks against the line that a note is on now, judged by what comes before it; null where the score has no such note. */
export function doubtsOf(score: Pick<Score, 'notes'>, split: Split, id: NoteId): Doubts | null {
  const at = score.notes.find((note) => note.id === id);
  if (at === undefined) return null;
  const own = linesOfNote(split, id);
  const last = lastNotes(score.notes, split, at);
  const previous = own.map((line) => last.get(line)).find((note) => note !== undefined);
  const isBeside = (note: SoundingNote): boolean =>
    note !== at && note.onsetTicks === at.onsetTicks && linesOfNote(split, note.id).some((line) => own.includes(line));
  return {
    rival: rivalOf(last, own, at),
    lineLastHeardIn: previous?.bar ?? null,
    leapSemitones: distance(previous, at),
    together: score.notes.filter(isBeside).length,
  };
}
