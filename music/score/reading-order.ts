import type { Bar, Score, SoundingNote } from './score.ts';

type Ordered = Pick<SoundingNote, 'onsetTicks' | 'sound' | 'id'>;

const heightOf = ({ sound }: Ordered): number => (sound.kind === 'pitched' ? sound.soundingMidi : -1);

/** Orders ids as people count: `n9` before `n10`. */
export const compareIds = (a: string, b: string): number => a.length - b.length || (a < b ? -1 : a > b ? 1 : 0);

/** Reading order: by onset, then from the highest pitch down, hits last, then by id. It is total, so that every list of notes sorts the same way everywhere. */
export const compareInReadingOrder = (a: Ordered, b: Ordered): number =>
  a.onsetTicks - b.onsetTicks || heightOf(b) - heightOf(a) || compareIds(a.id, b.id);

/** The notes in reading order; the given list is left as it is. */
export const inReadingOrder = <Note extends Ordered>(notes: readonly Note[]): Note[] =>
  [...notes].sort(compareInReadingOrder);

/** A moment as people name it: the bar's place and label, and the beat of its meter. */
export interface Beat {
  readonly barOrdinal: number;
  readonly barLabel: string;
  /** **Units** beats of the meter, from 1. */
  readonly beat: number;
}

/** The index of the bar that holds a tick; the last bar for anything after the end, 0 for anything before. */
export function barIndexAt(bars: readonly Bar[], ticks: number): number {
  let low = 0;
  let high = bars.length - 1;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if ((bars[middle]?.onsetTicks ?? Infinity) <= ticks) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** The bar and beat at a tick; null for a score without bars. */
export function beatOf(score: Pick<Score, 'bars' | 'ticksPerQuarter'>, ticks: number): Beat | null {
  const bar = score.bars[barIndexAt(score.bars, ticks)];
  if (bar === undefined) return null;
  const beatTicks = (score.ticksPerQuarter * 4) / bar.meter.beatUnit;
  return { barOrdinal: bar.ordinal, barLabel: bar.label, beat: 1 + (ticks - bar.onsetTicks) / beatTicks };
}
