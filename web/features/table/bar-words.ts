import type { Bar, NoteId, Score } from '../../../music/index.ts';
import { barWords, beatOf } from '../../engraving/place-words.ts';

/** Bars as people list them: `9, 17–18`; at most `limit` runs, the rest as an ellipsis. */
export function barListWords(bars: readonly Bar[], limit = 4): string {
  const runs: { readonly first: Bar; last: Bar }[] = [];
  for (const bar of [...bars].sort((a, b) => a.ordinal - b.ordinal)) {
    const run = runs.at(-1);
    if (run !== undefined && run.last.ordinal + 1 === bar.ordinal) run.last = bar;
    else runs.push({ first: bar, last: bar });
  }
  const words = runs
    .slice(0, limit)
    .map(({ first, last }) => (first === last ? barWords(first) : `${barWords(first)}–${barWords(last)}`));
  return words.join(', ') + (runs.length > limit ? ' …' : '');
}

const isPickup = (bar: Bar | undefined): boolean => bar !== undefined && bar.isImplicit && bar.ordinal === 1;

/** One bar in words: `bar 9`, `the pickup`. */
export const barPlaceWords = (bar: Bar): string => (isPickup(bar) ? 'the pickup' : `bar ${barWords(bar)}`);

/** The bars that some notes stand in, in words: `bar 9`, `the pickup and bars 1–8`. */
export function barsOfNotesWords(score: Score, notes: Iterable<NoteId>): string {
  const wanted = new Set(notes);
  const touched = new Set(score.notes.filter((note) => wanted.has(note.id)).map((note) => note.bar));
  const bars = score.bars.filter((bar) => touched.has(bar.id));
  const counted = bars.filter((bar) => !isPickup(bar));
  const words = counted.length === 0 ? '' : `${counted.length === 1 ? 'bar' : 'bars'} ${barListWords(counted)}`;
  return [isPickup(bars[0]) ? 'the pickup' : '', words].filter((part) => part !== '').join(' and ');
}

/** A moment in words: `bar 11, beat 3`. */
export function momentWords(score: Score, ticks: number): string {
  const bar =
    score.bars.find(
      (candidate) => ticks >= candidate.onsetTicks && ticks < candidate.onsetTicks + candidate.lengthTicks,
    ) ?? score.bars.at(-1);
  if (bar === undefined) return '';
  const beat = Math.floor(beatOf(score, bar, Math.min(ticks, bar.onsetTicks + bar.lengthTicks - 1)) + 1e-6);
  return `${barPlaceWords(bar)}, beat ${beat}`;
}
