import { wholeNumbers } from '../numbers.ts';

/** Chance that can be repeated: the same seed draws the same. */
export interface Draw {
  /** A whole number from 0 below a bound. */
  readonly below: (bound: number) => number;
  readonly pick: <Value>(values: readonly Value[]) => Value;
  /** A stretch within a length, at most `longest` long. */
  readonly stretch: (length: number, longest: number) => { readonly from: number; readonly to: number };
}

/** Neighbouring seeds would begin alike; multiplying spreads them (Knuth, multiplicative hashing). */
const spread = (seed: number): number => Math.imul(seed + 1, 2_654_435_761) >>> 0;

export function drawOf(seed: number): Draw {
  const next = wholeNumbers(spread(seed));
  for (let warm = 0; warm < 4; warm += 1) next(2);
  const below = (bound: number): number => (bound < 2 ? 0 : next(bound));
  return {
    below,
    pick: (values) => {
      const value = values[below(values.length)];
      if (value === undefined) throw new Error('There is nothing to pick from.');
      return value;
    },
    stretch: (length, longest) => {
      const from = below(length);
      return { from, to: Math.min(length, from + 1 + below(longest)) };
    },
  };
}
