import { describe, expect, it } from 'vitest';
import {
  exactAtan,
  exactAtan2,
  exactCos,
  exactExp,
  exactLog,
  exactLog10,
  exactLog2,
  exactPow,
  exactSin,
  exactTan,
} from './exact-math.ts';

const closeTo = (actual: number, wanted: number): void => {
  expect(Math.abs(actual - wanted)).toBeLessThanOrEqual(1e-13 * Math.max(1, Math.abs(wanted)));
};
const points = Array.from({ length: 4001 }, (_, index) => (index - 2000) / 40);

describe('functions that give the same bits on every engine, against the engine’s own', () => {
  it('sine, cosine and arc tangent', () => {
    for (const x of points) {
      closeTo(exactSin(x), Math.sin(x));
      closeTo(exactCos(x), Math.cos(x));
      closeTo(exactAtan(x), Math.atan(x));
      closeTo(exactAtan2(x, -1.3), Math.atan2(x, -1.3));
      closeTo(exactAtan2(x, 0.7), Math.atan2(x, 0.7));
    }
    for (const x of [-1.2, -0.3, 0.001, 0.5, 1.4]) closeTo(exactTan(x), Math.tan(x));
    expect([exactAtan2(0, 0), exactAtan2(1, 0), exactAtan2(-1, 0)]).toEqual([0, Math.PI / 2, -Math.PI / 2]);
  });

  it('exponential and logarithms', () => {
    for (const x of points) expect(Math.abs(exactExp(x) / Math.exp(x) - 1)).toBeLessThan(1e-13);
    for (const x of points.filter((point) => point > 0)) {
      for (const scale of [1e-200, 1e-9, 1, 1e9, 1e200]) closeTo(exactLog(x * scale), Math.log(x * scale));
      closeTo(exactLog2(x), Math.log2(x));
      closeTo(exactLog10(x), Math.log10(x));
      closeTo(exactPow(x, 0.37), x ** 0.37);
    }
    expect([exactExp(800), exactExp(-800), exactLog(0), exactLog(Infinity)]).toEqual([
      Infinity,
      0,
      -Infinity,
      Infinity,
    ]);
    expect(exactLog(-1)).toBeNaN();
  });
});
