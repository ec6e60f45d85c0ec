import { quartersToTicks, type Fraction } from '../basis/fraction.ts';
import type { BarId } from '../basis/ids.ts';
import type { Bar, Score } from './score.ts';

/** A point of the written score: a bar and the distance from its start. */
export interface Place {
  readonly bar: BarId;
  /** **Units** quarter notes from the bar's start; the bar's whole length stands for its end. */
  readonly offset: Fraction;
}

/** A stretch of the written score, `from` within it and `to` the first moment after it. Phrases may begin within a bar. */
export interface Excerpt {
  readonly from: Place;
  readonly to: Place;
}

/** A stretch of ticks, the end not included. */
export interface TickRange {
  readonly startTicks: number;
  readonly endTicks: number;
}

/** The bar with this id, or undefined where the score has none. */
export const barOf = (score: Pick<Score, 'bars'>, id: BarId): Bar | undefined =>
  score.bars.find((bar) => bar.id === id);

/** The ticks of a place, held within its bar; null where the score has no such bar. */
export function ticksOfPlace(score: Pick<Score, 'bars' | 'ticksPerQuarter'>, place: Place): number | null {
  const bar = barOf(score, place.bar);
  if (bar === undefined) return null;
  const offsetTicks = quartersToTicks(place.offset, score.ticksPerQuarter);
  return bar.onsetTicks + Math.min(Math.max(offsetTicks, 0), bar.lengthTicks);
}

/** The ticks of an excerpt; null where a bar is gone or nothing lies between its ends. */
export function ticksOfExcerpt(score: Pick<Score, 'bars' | 'ticksPerQuarter'>, excerpt: Excerpt): TickRange | null {
  const startTicks = ticksOfPlace(score, excerpt.from);
  const endTicks = ticksOfPlace(score, excerpt.to);
  if (startTicks === null || endTicks === null || endTicks <= startTicks) return null;
  return { startTicks, endTicks };
}

/** The excerpt that covers two bars, all between them, and nothing else. */
export function excerptOfBars(
  score: Pick<Score, 'bars' | 'ticksPerQuarter'>,
  first: BarId,
  last: BarId,
): Excerpt | null {
  const end = barOf(score, last);
  if (end === undefined || barOf(score, first) === undefined) return null;
  const quarters = { numerator: end.lengthTicks, denominator: score.ticksPerQuarter };
  return { from: { bar: first, offset: { numerator: 0, denominator: 1 } }, to: { bar: last, offset: quarters } };
}
