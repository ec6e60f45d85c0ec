import { excerptOfBars, ticksOfExcerpt, type BarId, type Excerpt, type NoteId, type Score } from '../../music/index.ts';

/** The bars that an excerpt touches. */
export interface ExcerptBars {
  readonly first: BarId;
  readonly last: BarId;
}

/** The bars of an excerpt, the last one being the last that it takes anything of. */
export function barsOfExcerpt(
  score: Pick<Score, 'bars' | 'ticksPerQuarter'>,
  excerpt: Excerpt | null,
): ExcerptBars | null {
  const range = excerpt === null ? null : ticksOfExcerpt(score, excerpt);
  if (range === null) return null;
  const touched = score.bars.filter(
    (bar) => bar.onsetTicks < range.endTicks && bar.onsetTicks + bar.lengthTicks > range.startTicks,
  );
  const first = touched[0];
  const last = touched.at(-1);
  return first === undefined || last === undefined ? null : { first: first.id, last: last.id };
}

/** The notes that an excerpt leaves out; none without an excerpt. */
export function notesOutside(score: Score, excerpt: Excerpt | null): ReadonlySet<NoteId> {
  const range = excerpt === null ? null : ticksOfExcerpt(score, excerpt);
  if (range === null) return new Set();
  const outside = score.notes.filter((note) => note.onsetTicks < range.startTicks || note.onsetTicks >= range.endTicks);
  return new Set(outside.map((note) => note.id));
}

/** The whole score as an excerpt. */
export function wholeExcerpt(score: Score): Excerpt | null {
  const first = score.bars[0];
  const last = score.bars.at(-1);
  return first === undefined || last === undefined ? null : excerptOfBars(score, first.id, last.id);
}
