import { fraction, type Fraction } from '../../basis/fraction.ts';
import type { Meter } from '../../score/score.ts';

/** The product of two lengths. */
export const times = (a: Fraction, b: Fraction): Fraction =>
  fraction(a.numerator * b.numerator, a.denominator * b.denominator);

/** The sum of two lengths. */
export const plus = (a: Fraction, b: Fraction): Fraction =>
  fraction(a.numerator * b.denominator + b.numerator * a.denominator, a.denominator * b.denominator);

/** Whether the first length is shorter than the second. */
export const isShorter = (a: Fraction, b: Fraction): boolean =>
  a.numerator * b.denominator < b.numerator * a.denominator;

/** No time at all. */
export const nothing = fraction(0);

/** A meter with the sign that it is printed as, or free time. */
export interface AbcMeter {
  /** Null where the music is not measured. */
  readonly meter: Meter | null;
  readonly symbol: 'common' | 'cut' | null;
}

/** The meter of an M: field, or null where it names none. **Source** ABC 2.1, M: field, from memory. */
export function meterOf(text: string): AbcMeter | null {
  const trimmed = text.trim();
  if (trimmed === 'C') return { meter: { beats: [4], beatUnit: 4 }, symbol: 'common' };
  if (trimmed === 'C|') return { meter: { beats: [2], beatUnit: 2 }, symbol: 'cut' };
  if (trimmed === '' || /^none$/i.test(trimmed)) return { meter: null, symbol: null };
  const [, groups = '', unit = ''] = /^\(?([\d\s+]+)\)?\s*\/\s*(\d+)/.exec(trimmed) ?? [];
  const beats = groups.split('+').map(Number);
  const beatUnit = Number(unit);
  const isWhole = (value: number): boolean => Number.isInteger(value) && value > 0 && value <= 256;
  return beats.every(isWhole) && isWhole(beatUnit) ? { meter: { beats, beatUnit }, symbol: null } : null;
}

/** The length of a bar, of a whole note. */
const barLength = ({ beats, beatUnit }: Meter): Fraction =>
  fraction(
    beats.reduce((sum, count) => sum + count, 0),
    beatUnit,
  );

/** The note length that a meter implies: a sixteenth in meters shorter than three quarters, else an eighth. **Source** ABC 2.1, L: field, from memory. */
export const impliedLength = (meter: Meter | null): Fraction =>
  meter !== null && isShorter(barLength(meter), fraction(3, 4)) ? fraction(1, 16) : fraction(1, 8);

/** A length such as `1/8`, or null. */
export function lengthOf(text: string): Fraction | null {
  const [, over = '', under = '1'] = /^\s*(\d+)(?:\s*\/\s*(\d+))?\s*$/.exec(text) ?? [];
  const [numerator, denominator] = [Number(over), Number(under)];
  return over !== '' && numerator > 0 && denominator > 0 ? fraction(numerator, denominator) : null;
}

/** A tempo: the words, and quarter notes a minute where it counts. */
export interface AbcTempo {
  readonly words: string;
  readonly quartersPerMinute: number | null;
}

/** A beat, also in the old form `C3`, which counts note lengths. */
function beatOf(text: string, unitLength: Fraction): Fraction | null {
  const [, count] = /^C(\d*)$/.exec(text) ?? [];
  return count === undefined ? lengthOf(text) : times(fraction(Math.max(1, Number(count))), unitLength);
}

/** The tempo of a Q: field: words in quotes, lengths that one beat lasts, beats a minute. A bare number counts note lengths. **Source** ABC 2.1, Q: field, from memory. */
export function tempoOf(text: string, unitLength: Fraction): AbcTempo {
  const words = [...text.matchAll(/"([^"]*)"/g)].map(([, word]) => word ?? '').join(' ');
  const counted = text.replace(/"[^"]*"/g, '').trim();
  const [, left = '', perMinute = ''] = /^(?:([\d/\sC]+)=)?\s*(\d+(?:\.\d+)?)\s*$/.exec(counted) ?? [];
  if (perMinute === '') return { words, quartersPerMinute: null };
  const parts = left.split(/\s+/).flatMap((part) => beatOf(part, unitLength) ?? []);
  const beat = parts.length === 0 ? unitLength : parts.reduce(plus);
  return { words, quartersPerMinute: (4 * Number(perMinute) * beat.numerator) / beat.denominator };
}

/** The factor that a length after a note says: `3`, `/`, `//`, `3/2`, `/4`. Null where it is nought. */
export function factorOf(text: string): Fraction | null {
  const [, over = '', slashes = '', under = ''] = /^(\d*)(\/*)(\d*)$/.exec(text) ?? [];
  const numerator = over === '' ? 1 : Number(over);
  const denominator = slashes === '' ? 1 : under === '' ? 2 ** Math.min(10, slashes.length) : Number(under);
  const isSane = numerator > 0 && denominator > 0 && numerator <= 4096 && denominator <= 4096;
  return isSane ? fraction(numerator, denominator) : null;
}

/** The length of a full bar, of a whole note; 1 where the music is not measured. */
export const fullBar = ({ meter }: AbcMeter): Fraction => (meter === null ? fraction(1) : barLength(meter));
