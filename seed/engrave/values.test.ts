import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Meter } from '../../music/index.ts';
import { printedValues } from './values.ts';

const fourFour: Meter = { beats: [4], beatUnit: 4 };
const threeFour: Meter = { beats: [3], beatUnit: 4 };
const sixEight: Meter = { beats: [6], beatUnit: 8 };
const noTriplets = new Set<number>();

const shown = (meter: Meter, start: number, length: number, triplets: ReadonlySet<number> = noTriplets): string =>
  printedValues(start, length, meter, triplets)
    .map(({ type, dots, isTriplet }) => `${type}${'.'.repeat(dots)}${isTriplet ? ' of three' : ''}`)
    .join(' ~ ');

// How values show the beat: common practice, no source.
describe('a stretch of a bar is printed so that the beat is seen', () => {
  it.each([
    [fourFour, 0, 96, 'whole'],
    [fourFour, 0, 72, 'half.'],
    [fourFour, 24, 48, 'quarter ~ quarter'],
    [fourFour, 36, 36, 'eighth ~ quarter'],
    [fourFour, 12, 24, 'quarter'],
    [fourFour, 24, 72, 'quarter ~ half'],
    [fourFour, 36, 60, 'eighth ~ half'],
    [fourFour, 60, 36, 'eighth ~ quarter'],
    [threeFour, 24, 48, 'half'],
    [threeFour, 0, 72, 'half.'],
    [sixEight, 0, 36, 'quarter.'],
    [sixEight, 24, 24, 'eighth ~ eighth'],
    [fourFour, 0, 18, 'eighth.'],
    [fourFour, 0, 30, 'quarter ~ 16th'],
  ] as const)('%o from %i for %i: %s', (meter, start, length, text) => {
    expect(shown(meter, start, length)).toBe(text);
  });

  it('writes thirds of a beat as triplets', () => {
    expect(shown(fourFour, 24, 8, new Set([1]))).toBe('eighth of three');
    expect(shown(fourFour, 32, 16, new Set([1]))).toBe('quarter of three');
    expect(shown(fourFour, 40, 20, new Set([1]))).toBe('eighth of three ~ eighth');
  });

  it('adds up to the stretch, without a gap, wherever it begins and ends', () => {
    const edges = fc.tuple(fc.integer({ min: 0, max: 32 }), fc.integer({ min: 0, max: 32 })).filter(([a, b]) => a < b);
    fc.assert(
      fc.property(edges, fc.constantFrom(fourFour, threeFour, sixEight), ([from, to], meter) => {
        const barTicks = (96 * (meter.beats[0] ?? 0)) / meter.beatUnit;
        fc.pre(to * 3 <= barTicks);
        const values = printedValues(from * 3, (to - from) * 3, meter, noTriplets);
        let atTicks = from * 3;
        for (const value of values) {
          expect(value.onsetTicks).toBe(atTicks);
          atTicks += value.lengthTicks;
        }
        expect(atTicks).toBe(to * 3);
      }),
      { seed: 20 },
    );
  });
});
