import type { NoteId } from '../basis/ids.ts';
import type { Fingerboard, Part, Score, SoundingNote } from '../score/score.ts';
import type { StaffTablature } from '../score/written.ts';

/** Six strings in standard tuning, string 1 first. **Source** common practice, no source. */
const standardTuning = [64, 59, 55, 50, 45, 40];

/** The part that says on what strings a note is played: its own, or the tablature that copies it. */
function stringedPart(parts: readonly Part[], note: SoundingNote): Part | undefined {
  const own = note.voices.map(({ part }) => part);
  return parts.find(
    ({ id, tuning, pairedWith }) =>
      tuning !== null && (own.includes(id) || (pairedWith !== null && own.includes(pairedWith))),
  );
}

/** Places that Heddle proposes for notes that have none of their own. */
export type ProposedPlaces = ReadonlyMap<NoteId, Fingerboard>;

/** The strings on which the notes of a line lie, as the part of its first note with a place on the fingerboard has them, its own or a proposed one; null where no note has one. */
export function tablatureOf(
  score: Pick<Score, 'parts'>,
  notes: readonly SoundingNote[],
  places: ProposedPlaces,
): StaffTablature | null {
  const isProposed = ({ id, fingerboard }: SoundingNote): boolean => fingerboard === null && places.has(id);
  const first = notes.find((note) => note.fingerboard !== null || isProposed(note));
  if (first === undefined) return null;
  const part = stringedPart(score.parts, first);
  return {
    tuning: part?.tuning ?? standardTuning,
    capoFret: part?.capoFret ?? 0,
    proposed: new Set(notes.filter(isProposed).map(({ id }) => id)),
  };
}
