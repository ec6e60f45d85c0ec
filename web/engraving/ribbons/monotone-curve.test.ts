import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { monotoneCurve } from './monotone-curve.ts';

const knots = fc
  .array(fc.record({ step: fc.integer({ min: 1, max: 40 }), value: fc.integer({ min: -100, max: 100 }) }), {
    minLength: 2,
    maxLength: 12,
  })
  .map((steps) => {
    let at = 0;
    return steps.map(({ step, value }) => ({ at: (at += step), value }));
  });

describe('a monotone curve', () => {
  it('goes through every knot', () => {
    fc.assert(
      fc.property(knots, (points) => {
        const curve = monotoneCurve(points);
        for (const { at, value } of points) expect(curve(at)).toBeCloseTo(value, 9);
      }),
    );
  });

  it('never leaves the range of two neighbours', () => {
    fc.assert(
      fc.property(knots, fc.double({ min: 0, max: 1, noNaN: true }), (points, share) => {
        const curve = monotoneCurve(points);
        points.slice(1).forEach((to, index) => {
          const from = points[index]!;
          const value = curve(from.at + share * (to.at - from.at));
          expect(value).toBeGreaterThanOrEqual(Math.min(from.value, to.value) - 1e-9);
          expect(value).toBeLessThanOrEqual(Math.max(from.value, to.value) + 1e-9);
        });
      }),
    );
  });

  it('is flat beyond its ends', () => {
    const curve = monotoneCurve([
      { at: 1, value: 5 },
      { at: 2, value: 7 },
    ]);
    expect([curve(-10), curve(10)]).toEqual([5, 7]);
  });
});
