import { barOf, ticksOfPlace, type Excerpt, type Place, type Score } from '../../music/index.ts';

type Bars = Pick<Score, 'bars' | 'ticksPerQuarter'>;

const beatTicks = (score: Bars, place: Place): number =>
  (4 * score.ticksPerQuarter) / (barOf(score, place.bar)?.meter.beatUnit ?? 4);

/** The beat of a place as musicians count it, from 1; halves of a beat as 1.5. */
export function beatOfPlace(score: Bars, place: Place): number {
  const bar = barOf(score, place.bar);
  const ticks = ticksOfPlace(score, place);
  if (bar === undefined || ticks === null) return 1;
  return Math.round(((ticks - bar.onsetTicks) / beatTicks(score, place)) * 100) / 100 + 1;
}

const isBarEnd = (score: Bars, place: Place): boolean => {
  const bar = barOf(score, place.bar);
  return bar !== undefined && ticksOfPlace(score, place) === bar.onsetTicks + bar.lengthTicks;
};

const isPickup = (score: Bars, place: Place): boolean => {
  const bar = barOf(score, place.bar);
  return bar !== undefined && bar.ordinal === 1 && bar.isImplicit;
};

const nameOfBar = (score: Bars, place: Place): string => {
  const bar = barOf(score, place.bar);
  if (bar === undefined) return 'a bar that is gone';
  return bar.label;
};

const endOf = (score: Bars, to: Place): string =>
  isBarEnd(score, to)
    ? `the end of bar ${nameOfBar(score, to)}`
    : `bar ${nameOfBar(score, to)}, before beat ${beatOfPlace(score, to)}`;

/** An excerpt in words: `bar 9`, `bars 9–12`, `bar 8, beat 4, to the end of bar 12`, `the pickup and on to the end of bar 4`. */
export function excerptWords(score: Bars, { from, to }: Excerpt): string {
  const startsWithBar = beatOfPlace(score, from) === 1;
  const [first, last] = [nameOfBar(score, from), nameOfBar(score, to)];
  if (startsWithBar && isPickup(score, from)) return `the pickup and on to ${endOf(score, to)}`;
  if (startsWithBar && isBarEnd(score, to)) return first === last ? `bar ${first}` : `bars ${first}–${last}`;
  const start = startsWithBar ? `bar ${first}` : `bar ${first}, beat ${beatOfPlace(score, from)}`;
  return `${start}, to ${endOf(score, to)}`;
}
