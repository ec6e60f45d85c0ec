import { describe, expect, it } from 'vitest';
import { cos, exp, log, log2, pow, sin } from './exact-math.ts';

// The engine's own functions serve as the outside reference; ECMA-262 leaves their last bits open, hence the tolerance.
describe('exact math', () => {
  const values = Array.from({ length: 400 }, (_, index) => (index - 200) / 7.3);

  it.each([['exp', exp, Math.exp], ['sin', sin, Math.sin], ['cos', cos, Math.cos]] as const)('%s agrees with the engine', (_, own, engine) => {
    for (const x of values) expect(Math.abs(own(x) - engine(x))).toBeLessThanOrEqual(4e-15 * Math.max(1, Math.abs(engine(x))));
  });

  it('log and log2 agree with the engine', () => {
    for (const x of [1e-300, 1e-9, 0.3, 0.70710678, 0.99, 1, 1.01, 1.5, 2, 3, 440, 1e9, 1e300]) {
      expect(log(x)).toBeCloseTo(Math.log(x), 12);
      expect(log2(x)).toBeCloseTo(Math.log2(x), 12);
    }
    expect([log2(8), log2(1 / 1024), log2(1)]).toEqual([3, -10, 0]);
  });

  it('pow is exact where the answer is simple and close elsewhere', () => {
    expect([pow(2, 10), pow(2, -3), pow(5, 0), pow(0, 2)]).toEqual([1024, 0.125, 1, 0]);
    for (const [base, exponent] of [[2, 1 / 12], [10, -0.05], [3, 7], [0.9, 200]] as const)
      expect(pow(base, exponent) / Math.pow(base, exponent)).toBeCloseTo(1, 13);
  });
});
