import type { NoteId } from '../basis/ids.ts';
import type { Fingerboard, Part, Score, SoundingNote } from '../score/score.ts';
import type { SetupChange, StaffTablature, StringSetup } from '../score/written.ts';
import type { BarFrame } from './written-bars.ts';

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

/** A set-up with the moment from which it holds. **Units** ticks of the written score. */
interface TimedSetup extends StringSetup {
  readonly onsetTicks: number;
}

/** The set-ups of a part in order of time. */
function setupsOf(part: Part | undefined): readonly TimedSetup[] {
  const first = { onsetTicks: -Infinity, tuning: part?.tuning ?? standardTuning, capoFret: part?.capoFret ?? 0 };
  return [first, ...(part?.retunings ?? [])];
}

/** Where a change stands among the bars that are written: before the line's first note from then on, at the start of its bar where it is the first one there. */
function changeAt(
  { onsetTicks, tuning, capoFret }: TimedSetup,
  notes: readonly SoundingNote[],
  frames: readonly BarFrame[],
): readonly SetupChange[] {
  const note = notes.find((one) => one.onsetTicks >= onsetTicks);
  if (note === undefined) return [];
  const barIndex = frames.findIndex(({ endTicks }) => note.onsetTicks < endTicks);
  const barStart = frames[barIndex]?.startTicks ?? 0;
  const isFirst = !notes.some((one) => one.onsetTicks >= barStart && one.onsetTicks < note.onsetTicks);
  return [{ barIndex, onsetTicks: isFirst ? 0 : note.onsetTicks - barStart, tuning, capoFret }];
}

/** Of changes at one place the last: what was set up while the line rested is not its own any more. */
const lastAtEachPlace = (changes: readonly SetupChange[]): readonly SetupChange[] =>
  changes.filter(({ barIndex, onsetTicks }, index) => {
    const next = changes[index + 1];
    return next?.barIndex !== barIndex || next.onsetTicks !== onsetTicks;
  });

/** The strings on which the notes of a line lie, as the part of its first note with a place on the fingerboard has them, its own or a proposed one; null where no note has one. `notes` are in order of time. */
export function tablatureOf(
  score: Pick<Score, 'parts'>,
  notes: readonly SoundingNote[],
  places: ProposedPlaces,
  frames: readonly BarFrame[],
): StaffTablature | null {
  const isProposed = ({ id, fingerboard }: SoundingNote): boolean => fingerboard === null && places.has(id);
  const first = notes.find((note) => note.fingerboard !== null || isProposed(note));
  if (first === undefined) return null;
  const setups = setupsOf(stringedPart(score.parts, first));
  const opening = setups.findLastIndex(({ onsetTicks }) => onsetTicks <= first.onsetTicks);
  const { tuning, capoFret } = setups[opening] ?? { tuning: standardTuning, capoFret: 0 };
  const changes = lastAtEachPlace(setups.slice(opening + 1).flatMap((setup) => changeAt(setup, notes, frames)));
  return {
    tuning,
    capoFret,
    ...(changes.length === 0 ? {} : { changes }),
    proposed: new Set(notes.filter(isProposed).map(({ id }) => id)),
  };
}
