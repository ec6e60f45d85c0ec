/** An exact rational number in lowest terms with a positive denominator. **Units** quarter notes wherever it tells written time. */
export interface Fraction {
  readonly numerator: number;
  readonly denominator: number;
}

/** The greatest common divisor of two whole numbers, never negative; `gcd(0, 0)` is 0. */
export function gcd(a: number, b: number): number {
  let x = Math.abs(a);
  let y = Math.abs(b);
  while (y !== 0) [x, y] = [y, x % y];
  return x;
}

/** The least common multiple of two positive whole numbers. */
export const lcm = (a: number, b: number): number => (a / gcd(a, b)) * b;

/** The fraction in lowest terms. **Errors** throws when `denominator` is 0, which is a bug of ours. */
export function fraction(numerator: number, denominator = 1): Fraction {
  if (denominator === 0) throw new Error('Heddle bug: a fraction needs a denominator other than 0');
  const divisor = gcd(numerator, denominator) * (denominator < 0 ? -1 : 1);
  return { numerator: numerator / divisor, denominator: denominator / divisor };
}

/** The quarter notes that `ticks` stand for. */
export const ticksToQuarters = (ticks: number, ticksPerQuarter: number): Fraction => fraction(ticks, ticksPerQuarter);

/** The ticks nearest to a length in quarter notes; exact whenever the score's resolution can hold it. */
export const quartersToTicks = (quarters: Fraction, ticksPerQuarter: number): number =>
  Math.round((quarters.numerator * ticksPerQuarter) / quarters.denominator);
