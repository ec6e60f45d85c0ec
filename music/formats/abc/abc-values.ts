import { fraction, type Fraction } from '../../basis/fraction.ts';
import type { NoteValue } from '../../score/written.ts';
import { isShorter, nothing, plus } from './abc-time.ts';

/** One printed value. **Units** `length` of a whole note. */
export interface PrintedValue {
  readonly length: Fraction;
  /** Null where no value says the length. */
  readonly type: NoteValue['type'] | null;
  readonly dots: number;
}

const types: readonly (readonly [NoteValue['type'], Fraction])[] = [
  ['maxima', fraction(8)],
  ['long', fraction(4)],
  ['breve', fraction(2)],
  ['whole', fraction(1)],
  ['half', fraction(1, 2)],
  ['quarter', fraction(1, 4)],
  ['eighth', fraction(1, 8)],
  ['16th', fraction(1, 16)],
  ['32nd', fraction(1, 32)],
  ['64th', fraction(1, 64)],
  ['128th', fraction(1, 128)],
  ['256th', fraction(1, 256)],
];
const most = fraction(16);

/** All values with up to three dots, the longest first. */
const values: readonly PrintedValue[] = types
  .flatMap(([type, plain]) =>
    [0, 1, 2, 3].map((dots): PrintedValue => {
      const parts = 2 ** dots;
      return { length: fraction(plain.numerator * (2 * parts - 1), plain.denominator * parts), type, dots };
    }),
  )
  .sort((a, b) => (isShorter(a.length, b.length) ? 1 : -1));

const isSame = (a: Fraction, b: Fraction): boolean => a.numerator === b.numerator && a.denominator === b.denominator;

const isPowerOfTwo = (value: number): boolean => 2 ** Math.round(Math.log2(value)) === value;

/** The values that a length is printed as, to be tied: one where one says it, else the longest first. */
export function printedValues(length: Fraction): readonly PrintedValue[] {
  const single = values.find((value) => isSame(value.length, length));
  if (single !== undefined) return [single];
  const isBinary = isPowerOfTwo(length.denominator) && length.denominator <= 256 && isShorter(length, most);
  if (!isBinary) return [{ length, type: null, dots: 0 }];
  const pieces: PrintedValue[] = [];
  let left = length;
  while (isShorter(nothing, left)) {
    const rest = left;
    const value = values.find((one) => one.dots <= 1 && !isShorter(rest, one.length));
    if (value === undefined) break;
    pieces.push(value);
    left = plus(left, fraction(-value.length.numerator, value.length.denominator));
  }
  return pieces;
}
