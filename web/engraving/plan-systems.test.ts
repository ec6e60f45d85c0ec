import fc from 'fast-check';
import { expect, test } from 'vitest';
import { barId, type Bar, type BarId } from '../../music/index.ts';
import { planSystems } from './plan-systems.ts';

const bar = (ordinal: number, rehearsalMark: string | null = null): Bar => ({
  id: barId(`b${ordinal}`),
  ordinal,
  label: String(ordinal),
  onsetTicks: (ordinal - 1) * 16,
  lengthTicks: 16,
  meter: { beats: [4], beatUnit: 4 },
  key: { fifths: 0, mode: null },
  isImplicit: false,
  startsRepeat: false,
  repeatTimes: 0,
  endings: [],
  jumps: [],
  rehearsalMark,
});
const bars = (count: number): readonly Bar[] => Array.from({ length: count }, (_, index) => bar(index + 1));
const measures = { width: 1000, perSlice: 30, perBar: 10 };
const even = (list: readonly Bar[], slices: number): ReadonlyMap<BarId, number> =>
  new Map(list.map((one) => [one.id, slices]));
const counts = (list: readonly Bar[], slices: ReadonlyMap<BarId, number>) =>
  planSystems(list, slices, measures).map((plan) => plan.bars.length);

test('equal bars fill systems evenly, and none is left alone at the end', () => {
  expect(counts(bars(16), even(bars(16), 8))).toEqual([4, 4, 4, 4]);
  expect(counts(bars(5), even(bars(5), 8))).toEqual([3, 2]);
});

test('a bar wider than the page stands alone', () => {
  const list = bars(3);
  expect(counts(list, new Map([...even(list, 4), [barId('b2'), 60]]))).toEqual([1, 1, 1]);
});

test('every bar is set once, in order, and no system of several bars is more than a tenth wider than the page', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 0, max: 40 }), { minLength: 1, maxLength: 60 }), (slices) => {
      const list = bars(slices.length);
      const plans = planSystems(list, new Map(list.map((one, index) => [one.id, slices[index] as number])), measures);
      expect(plans.flatMap((plan) => plan.bars.map((one) => one.id))).toEqual(list.map((one) => one.id));
      for (const plan of plans)
        if (plan.bars.length > 1) expect(plan.neededWidth).toBeLessThanOrEqual(measures.width * 1.1);
    }),
    { seed: 20_261_125 },
  );
});
