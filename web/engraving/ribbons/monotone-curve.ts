/** A point that a curve goes through. */
export interface Knot {
  readonly at: number;
  readonly value: number;
}

function slopesOf(knots: readonly Knot[]): number[] {
  const secants = knots.slice(1).map((knot, index) => {
    const before = knots[index] as Knot;
    return (knot.value - before.value) / (knot.at - before.at);
  });
  return knots.map((_, index) => {
    const before = secants[index - 1];
    const after = secants[index];
    if (before === undefined || after === undefined || before * after <= 0) return 0;
    return (2 * before * after) / (before + after);
  });
}

/**
 * A smooth function through knots of ascending `at` that never leaves the range of two neighbours; flat beyond the ends.
 * Source: F. N. Fritsch and J. Butland, A Method for Constructing Local Monotone Piecewise Cubic Interpolants,
 * SIAM J. Sci. Stat. Comput. 5 (1984): the harmonic mean of the secants as slope.
 */
export function monotoneCurve(knots: readonly Knot[]): (at: number) => number {
  const clean = knots.filter((knot, index) => index === 0 || knot.at > (knots[index - 1] as Knot).at);
  const slopes = slopesOf(clean);
  const first = clean[0];
  const last = clean.at(-1);
  if (first === undefined || last === undefined) throw new Error('Heddle bug: a curve needs a knot');
  return (at) => {
    if (at <= first.at) return first.value;
    if (at >= last.at) return last.value;
    const index = indexBefore(clean, at);
    return between(
      clean[index] as Knot,
      clean[index + 1] as Knot,
      slopes[index] as number,
      slopes[index + 1] as number,
      at,
    );
  };
}

function indexBefore(knots: readonly Knot[], at: number): number {
  let low = 0;
  let high = knots.length - 1;
  while (high - low > 1) {
    const half = (low + high) >> 1;
    if ((knots[half] as Knot).at <= at) low = half;
    else high = half;
  }
  return low;
}

function between(from: Knot, to: Knot, leaving: number, arriving: number, at: number): number {
  const span = to.at - from.at;
  const u = (at - from.at) / span;
  const squared = u * u;
  const cubed = squared * u;
  return (
    (2 * cubed - 3 * squared + 1) * from.value +
    (cubed - 2 * squared + u) * span * leaving +
    (3 * squared - 2 * cubed) * to.value +
    (cubed - squared) * span * arriving
  );
}
