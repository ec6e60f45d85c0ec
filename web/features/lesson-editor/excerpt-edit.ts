import { barId, ticksToQuarters, type Bar, type Excerpt, type Place, type Score } from '../../../music/index.ts';

type Bars = Pick<Score, 'bars' | 'ticksPerQuarter'>;

const beatTicksOf = (score: Bars, bar: Bar): number => (4 * score.ticksPerQuarter) / bar.meter.beatUnit;

/** The beats that a bar has, from 1; a last part-beat counts. */
export const beatsOf = (score: Bars, bar: Bar): readonly number[] =>
  Array.from({ length: Math.ceil(bar.lengthTicks / beatTicksOf(score, bar)) }, (_, index) => index + 1);

/** The place of a beat in a bar, beats counted from 1; null stands for the bar's end. */
export function placeAt(score: Bars, bar: Bar, beat: number | null): Place {
  const ticks = beat === null ? bar.lengthTicks : Math.min(bar.lengthTicks, (beat - 1) * beatTicksOf(score, bar));
  return { bar: bar.id, offset: ticksToQuarters(ticks, score.ticksPerQuarter) };
}

/** The beat at which a place stands; null for its bar's end. */
export function beatAt(score: Bars, place: Place): number | null {
  const bar = score.bars.find(({ id }) => id === place.bar);
  if (bar === undefined) return 1;
  const ticks = (place.offset.numerator / place.offset.denominator) * score.ticksPerQuarter;
  return ticks >= bar.lengthTicks ? null : ticks / beatTicksOf(score, bar) + 1;
}

const ordinalOf = (score: Bars, place: Place): number => score.bars.find(({ id }) => id === place.bar)?.ordinal ?? 0;
const isAfter = (score: Bars, one: Place, other: Place): boolean => {
  const [first, second] = [ordinalOf(score, one), ordinalOf(score, other)];
  if (first !== second) return first > second;
  return one.offset.numerator * other.offset.denominator > other.offset.numerator * one.offset.denominator;
};

/** The excerpt with another beginning; an end that would come before it moves to the end of the new first bar. */
export function withStart(score: Bars, excerpt: Excerpt, bar: Bar, beat: number): Excerpt {
  const from = placeAt(score, bar, beat);
  return { from, to: isAfter(score, excerpt.to, from) ? excerpt.to : placeAt(score, bar, null) };
}

/** The excerpt with another end; a beginning that would come after it moves to the start of the new last bar. */
export function withEnd(score: Bars, excerpt: Excerpt, bar: Bar, beat: number | null): Excerpt {
  const wanted = placeAt(score, bar, beat);
  const to = wanted.offset.numerator === 0 ? placeAt(score, bar, null) : wanted;
  return { from: isAfter(score, to, excerpt.from) ? excerpt.from : placeAt(score, bar, 1), to };
}

/** The first four bars, or as many as there are; null in an empty score. */
export function firstBars(score: Bars): Excerpt | null {
  const first = score.bars[0];
  const last = score.bars[Math.min(3, score.bars.length - 1)];
  if (first === undefined || last === undefined) return null;
  return { from: placeAt(score, first, 1), to: placeAt(score, last, null) };
}

/** The bar with an id that a list of choices gave back. */
export const barFrom = (score: Bars, id: string): Bar | undefined => score.bars.find((bar) => bar.id === barId(id));
