import type { SoundingNote } from '../score/score.ts';

/** Two notes of two lines that sound together although the upper line's is the lower one. */
export interface Crossing {
  readonly onsetTicks: number;
  readonly upper: SoundingNote;
  readonly lower: SoundingNote;
}

const endOf = (note: SoundingNote): number => note.onsetTicks + note.lengthTicks;
const midi = ({ sound }: SoundingNote): number | null => (sound.kind === 'pitched' ? sound.soundingMidi : null);

const isBelow = (upper: SoundingNote, lower: SoundingNote): boolean => {
  const [high, low] = [midi(upper), midi(lower)];
  return high !== null && low !== null && high < low;
};

/** The places where the upper line goes below the lower one, the first moment of each; both lists in order of time. */
export function crossingsOf(
  upperNotes: readonly SoundingNote[],
  lowerNotes: readonly SoundingNote[],
): readonly Crossing[] {
  const merged = [
    ...upperNotes.map((note) => ({ note, isUpper: true })),
    ...lowerNotes.map((note) => ({ note, isUpper: false })),
  ].sort((left, right) => left.note.onsetTicks - right.note.onsetTicks);
  const crossings: Crossing[] = [];
  let upper: SoundingNote | null = null;
  let lower: SoundingNote | null = null;
  let isCrossed = false;
  for (const [index, { note, isUpper }] of merged.entries()) {
    if (isUpper) upper = note;
    else lower = note;
    const onsetTicks = note.onsetTicks;
    if (merged[index + 1]?.note.onsetTicks === onsetTicks || upper === null || lower === null) continue;
    if (endOf(upper) <= onsetTicks || endOf(lower) <= onsetTicks) continue;
    const crosses = isBelow(upper, lower);
    if (crosses && !isCrossed) crossings.push({ onsetTicks, upper, lower });
    isCrossed = crosses;
  }
  return crossings;
}
