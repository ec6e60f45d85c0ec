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

const nameOfBar = (score: Bars, place: Place): string => {
  const bar = barOf(score, place.bar);
  if (bar === undefined) return 'a bar that is gone';
  return bar.label === '' ? 'the pickup' : bar.label;
};

/** An excerpt in words: `bar 9`, `bars 9–12`, `bar 8, beat 4, to the end of bar 12`. */
export function excerptWords(score: Bars, { from, to }: Excerpt): string {
  const startsWithBar = beatOfPlace(score, from) === 1;
  const endsWithBar = isBarEnd(score, to);
  const [first, last] = [nameOfBar(score, from), nameOfBar(score, to)];
  if (startsWithBar && endsWithBar) return first === last ? `bar ${first}` : `bars ${first}–${last}`;
  const start = startsWithBar ? `bar ${first}` : `bar ${first}, beat ${beatOfPlace(score, from)}`;
  const end = endsWithBar ? `bar ${last}` : `bar ${last}, before beat ${beatOfPlace(score, to)}`;
  return `${start}, to ${endsWithBar ? 'the end of ' : ''}${end}`;
}
