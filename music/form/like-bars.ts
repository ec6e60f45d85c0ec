import type { BarId, NoteId } from '../basis/ids.ts';
import type { Bar, Score, SoundingNote } from '../score/score.ts';
import { alignBars } from './bar-alignment.ts';

/** How like two bars are: note for note the same; the same at another pitch; mostly the same. */
export type BarLikeness = 'exact' | 'transposed' | 'varied';

/** A bar that is like another one. */
export interface LikeBar {
  readonly bar: BarId;
  readonly likeness: BarLikeness;
  /** How far it lies above the other bar. **Units** semitones. */
  readonly semitones: number;
  /** For the notes of the other bar that have a counterpart here, that counterpart; no note is one twice. */
  readonly counterparts: ReadonlyMap<NoteId, NoteId>;
}

/** A bar with fewer notes than this is like another only where it is exactly the same: two notes at some distance are no likeness. */
const fewestNotesMoved = 3;
/** What share of both bars' notes must correspond for one to be a variant of the other. */
const variantShare = 0.75;

function notesByBar(notes: readonly SoundingNote[]): ReadonlyMap<BarId, readonly SoundingNote[]> {
  const byBar = new Map<BarId, SoundingNote[]>();
  for (const note of notes) {
    const known = byBar.get(note.bar);
    if (known === undefined) byBar.set(note.bar, [note]);
    else known.push(note);
  }
  return byBar;
}

function likenessOf(
  bar: Bar,
  notes: readonly SoundingNote[],
  other: Bar,
  others: readonly SoundingNote[],
): LikeBar | null {
  if (bar.lengthTicks !== other.lengthTicks || others.length === 0) return null;
  const longer = Math.max(notes.length, others.length);
  if (2 * Math.min(notes.length, others.length) < longer * variantShare) return null;
  const { semitones, pairs, alike, isSameRhythm } = alignBars(
    { onsetTicks: bar.onsetTicks, notes },
    { onsetTicks: other.onsetTicks, notes: others },
  );
  const isWhole = alike.same === notes.length && alike.same === others.length && isSameRhythm;
  const found = { bar: other.id, semitones, counterparts: new Map(pairs) };
  if (isWhole && semitones === 0) return { ...found, likeness: 'exact' };
  if (longer < fewestNotesMoved) return null;
  if (isWhole) return { ...found, likeness: 'transposed' };
  return (2 * alike.near) / (notes.length + others.length) >= variantShare ? { ...found, likeness: 'varied' } : null;
}

/**
 * The other bars of a score that are like one of its bars, in written order, each with the notes that correspond: exactly (pitches, hits, onsets
 * and lengths), transposed (all pitches moved alike), or varied (as long a bar, at least three quarters of both bars' notes beginning at the same
 * place, on the same side of what begins with them, and at most a whole tone off).
 * **Errors** none: a bar that the score does not have, or that is empty, is like none.
 */
export function likeBars(score: Pick<Score, 'bars' | 'notes'>, bar: BarId): readonly LikeBar[] {
  const byBar = notesByBar(score.notes);
  const given = score.bars.find(({ id }) => id === bar);
  const notes = byBar.get(bar) ?? [];
  if (given === undefined || notes.length === 0) return [];
  return score.bars.flatMap((other): readonly LikeBar[] => {
    const found = other.id === bar ? null : likenessOf(given, notes, other, byBar.get(other.id) ?? []);
    return found === null ? [] : [found];
  });
}
