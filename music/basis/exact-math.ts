/**
 * Elementary functions from + − × ÷ and square root only: engines differ in the last bits of `Math.sin` and its kin,
 * these give the same bits everywhere. Relative error is below 1e-13 over the ranges that music needs.
 */
const ln2High = 0.69314718036912381649;
const ln2Low = 1.90821492927058770002e-10;
const halfPiHigh = 1.57079632673412561417;
const halfPiMiddle = 6.0771005063039659766e-11;
const halfPiLow = 2.02226624879595063154e-21;

/** 2 to a whole power, exact within the range of normal numbers. */
function wholePowerOfTwo(exponent: number): number {
  let remaining = Math.abs(exponent);
  let base = exponent < 0 ? 0.5 : 2;
  let result = 1;
  while (remaining > 0) {
    if (remaining % 2 === 1) result *= base;
    base *= base;
    remaining = Math.floor(remaining / 2);
  }
  return result;
}

/** e to the power of `x`. */
export function exactExp(x: number): number {
  if (x > 709) return Infinity;
  if (x < -707) return 0;
  const halvings = Math.round(x / Math.LN2);
  const rest = x - halvings * ln2High - halvings * ln2Low;
  let sum = 1;
  for (let term = 14; term >= 1; term -= 1) sum = 1 + (rest / term) * sum;
  return sum * wholePowerOfTwo(halvings);
}

/** The natural logarithm of `x`; −Infinity for 0, NaN below it. */
export function exactLog(x: number): number {
  if (x === 0) return -Infinity;
  if (!(x > 0)) return NaN;
  if (x === Infinity) return Infinity;
  let mantissa = x;
  let exponent = 0;
  for (let step = 512; step >= 1; step /= 2) {
    const factor = wholePowerOfTwo(step);
    if (mantissa >= factor) {
      mantissa /= factor;
      exponent += step;
    }
    if (mantissa * factor < 2) {
      mantissa *= factor;
      exponent -= step;
    }
  }
  if (mantissa > Math.SQRT2) {
    mantissa /= 2;
    exponent += 1;
  }
  const ratio = (mantissa - 1) / (mantissa + 1);
  const square = ratio * ratio;
  let sum = 0;
  for (let odd = 23; odd >= 1; odd -= 2) sum = sum * square + 1 / odd;
  return exponent * ln2High + (exponent * ln2Low + 2 * ratio * sum);
}

/** The logarithm of `x` to base 2. */
export const exactLog2 = (x: number): number => exactLog(x) / Math.LN2;

/** The logarithm of `x` to base 10. */
export const exactLog10 = (x: number): number => exactLog(x) / Math.LN10;

/** `base`, which must be positive, to the power of `exponent`. */
export const exactPow = (base: number, exponent: number): number => exactExp(exponent * exactLog(base));

function sineSeries(x: number): number {
  const square = x * x;
  let sum = 1;
  for (let term = 16; term >= 2; term -= 2) sum = 1 - (square / (term * (term + 1))) * sum;
  return x * sum;
}

function cosineSeries(x: number): number {
  const square = x * x;
  let sum = 1;
  for (let term = 17; term >= 1; term -= 2) sum = 1 - (square / (term * (term + 1))) * sum;
  return sum;
}

/** The sine of an angle in radians. */
export function exactSin(x: number): number {
  const quarters = Math.round(x / (Math.PI / 2));
  const rest = x - quarters * halfPiHigh - quarters * halfPiMiddle - quarters * halfPiLow;
  const quadrant = ((quarters % 4) + 4) % 4;
  if (quadrant === 0) return sineSeries(rest);
  if (quadrant === 1) return cosineSeries(rest);
  return quadrant === 2 ? -sineSeries(rest) : -cosineSeries(rest);
}

/** The cosine of an angle in radians. */
export function exactCos(x: number): number {
  const quarters = Math.round(x / (Math.PI / 2));
  const rest = x - quarters * halfPiHigh - quarters * halfPiMiddle - quarters * halfPiLow;
  const quadrant = ((quarters % 4) + 4) % 4;
  if (quadrant === 0) return cosineSeries(rest);
  if (quadrant === 1) return -sineSeries(rest);
  return quadrant === 2 ? -cosineSeries(rest) : sineSeries(rest);
}

/** The tangent of an angle in radians. */
export const exactTan = (x: number): number => exactSin(x) / exactCos(x);

/** The arc tangent of `x`, between −π/2 and π/2. */
export function exactAtan(x: number): number {
  if (Math.abs(x) > 1) return (x > 0 ? Math.PI : -Math.PI) / 2 - exactAtan(1 / x);
  const half = x / (1 + Math.sqrt(1 + x * x));
  const quarter = half / (1 + Math.sqrt(1 + half * half));
  const square = quarter * quarter;
  let sum = 0;
  for (let odd = 25; odd >= 1; odd -= 2) sum = 1 / odd - square * sum;
  return 4 * quarter * sum;
}

/** The angle of the point (`x`, `y`), between −π and π. */
export function exactAtan2(y: number, x: number): number {
  if (x > 0) return exactAtan(y / x);
  if (x < 0) return exactAtan(y / x) + (y < 0 ? -Math.PI : Math.PI);
  if (y === 0) return 0;
  return y > 0 ? Math.PI / 2 : -Math.PI / 2;
}
