/** A sequence of whole numbers below a bound, the same for the same seed everywhere (xorshift, Marsaglia 2003). */
export function wholeNumbers(seed: number): (bound: number) => number {
  let state = seed >>> 0 || 1;
  return (bound) => {
    state ^= state << 13;
    state >>>= 0;
    state ^= state >>> 17;
    state ^= state << 5;
    state >>>= 0;
    return state % bound;
  };
}

/** The values in another order. */
export function shuffled<Value>(values: readonly Value[], seed: number): readonly Value[] {
  const next = wholeNumbers(seed);
  const drawn = [...values];
  for (let last = drawn.length - 1; last > 0; last--) {
    const other = next(last + 1);
    [drawn[last], drawn[other]] = [drawn[other] as Value, drawn[last] as Value];
  }
  return drawn;
}
