import { barId, fraction, ticksOfExcerpt, type Excerpt, type Place, type Score } from '../../../music/index.ts';

const placePattern = /^([^+~]{1,64})\+(\d{1,6})\/(\d{1,6})$/;

const placeText = ({ bar, offset }: Place): string => `${bar}+${offset.numerator}/${offset.denominator}`;

/** An excerpt as it stands in an address. */
export const excerptText = ({ from, to }: Excerpt): string => `${placeText(from)}~${placeText(to)}`;

function placeOf(text: string | undefined): Place | null {
  const [, bar, numerator, denominator] = placePattern.exec(text ?? '') ?? [];
  if (bar === undefined || Number(denominator) === 0) return null;
  return { bar: barId(bar), offset: fraction(Number(numerator), Number(denominator)) };
}

/** The excerpt that an address names; null where it names none or one that the score does not have. */
export function excerptFromText(text: string | null, score: Pick<Score, 'bars' | 'ticksPerQuarter'>): Excerpt | null {
  const [from, to] = (text ?? '').split('~').map(placeOf);
  if (from === undefined || to === undefined || from === null || to === null) return null;
  return ticksOfExcerpt(score, { from, to }) === null ? null : { from, to };
}
