import type { Score, SoundingNote } from '../score/score.ts';

/** Where hits go: to the percussion line, or with the strum that they stand in. */
export interface HitsFound {
  readonly percussion: readonly SoundingNote[];
  /** Each hit within a strum with the pitched note that it goes with. */
  readonly withStrum: ReadonlyMap<SoundingNote, SoundingNote>;
}

const strumSize = 2;

function nearestOf(hit: SoundingNote, strum: readonly SoundingNote[]): SoundingNote | undefined {
  const string = hit.fingerboard?.string;
  const distance = (note: SoundingNote): number =>
    string === undefined || note.fingerboard === null ? 0 : Math.abs(note.fingerboard.string - string);
  return strum.reduce<SoundingNote | undefined>(
    (nearest, note) => (nearest === undefined || distance(note) < distance(nearest) ? note : nearest),
    undefined,
  );
}

/** Tells the hits of a score apart: a dead or uncertain note struck with two pitched notes or more belongs to their strum, any other is percussion. */
export function sortHits(score: Pick<Score, 'notes'>): HitsFound {
  const pitchedAt = new Map<number, SoundingNote[]>();
  for (const note of score.notes)
    if (note.sound.kind === 'pitched')
      pitchedAt.set(note.onsetTicks, [...(pitchedAt.get(note.onsetTicks) ?? []), note]);
  const percussion: SoundingNote[] = [];
  const withStrum = new Map<SoundingNote, SoundingNote>();
  for (const note of score.notes) {
    if (note.sound.kind !== 'hit') continue;
    const strum = pitchedAt.get(note.onsetTicks) ?? [];
    const mayBeStrummed = note.sound.hit === 'deadNote' || !note.sound.isCertain;
    const companion = mayBeStrummed && strum.length >= strumSize ? nearestOf(note, strum) : undefined;
    if (companion === undefined) percussion.push(note);
    else withStrum.set(note, companion);
  }
  return { percussion, withStrum };
}
