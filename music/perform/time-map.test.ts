import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { TickRange } from '../score/excerpt.ts';
import { assumedTempo } from '../score/assumed-tempo.ts';
import { secondsAtTicks, secondsOfRange, ticksAtSeconds, timeMapOf } from './time-map.ts';

const ticksPerQuarter = 480;
const tempos = fc.array(
  fc.record({
    onsetTicks: fc.integer({ min: 0, max: 40_000 }),
    quartersPerMinute: fc.double({ min: 20, max: 300, noNaN: true }),
  }),
  { maxLength: 8 },
);
const range = fc
  .tuple(fc.integer({ min: 0, max: 30_000 }), fc.integer({ min: 1, max: 20_000 }))
  .map(([startTicks, length]): TickRange => ({ startTicks, endTicks: startTicks + length }));

describe('[R32] time map', () => {
  it('is continuous, rises, and its two directions undo each other', () => {
    fc.assert(
      fc.property(
        tempos,
        range,
        fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 2, maxLength: 20 }),
        (marks, stretch, shares) => {
          const map = timeMapOf({ tempos: marks, ticksPerQuarter }, [stretch]);
          const ticks = shares
            .map((share) => stretch.startTicks + share * (stretch.endTicks - stretch.startTicks))
            .sort((a, b) => a - b);
          const seconds = ticks.map((each) => secondsAtTicks(map, each));
          for (const [index, each] of ticks.entries()) {
            expect(ticksAtSeconds(map, seconds[index]!)).toBeCloseTo(each, 4);
            if (index > 0 && each > ticks[index - 1]!)
              expect(seconds[index]!).toBeGreaterThanOrEqual(seconds[index - 1]!);
          }
          expect(secondsAtTicks(map, stretch.startTicks)).toBe(0);
          expect(secondsAtTicks(map, stretch.endTicks)).toBeCloseTo(map.lengthSeconds, 9);
        },
      ),
      { seed: 2026, numRuns: 300 },
    );
  });

  it('holds a tempo from its mark to the next, and the first one from the beginning', () => {
    const marks = [
      { onsetTicks: 960, quartersPerMinute: 120 },
      { onsetTicks: 1920, quartersPerMinute: 60 },
    ];
    const map = timeMapOf({ tempos: marks, ticksPerQuarter }, [{ startTicks: 0, endTicks: 2880 }]);
    expect([480, 1920, 2880].map((ticks) => secondsAtTicks(map, ticks))).toEqual([0.5, 2, 4]);
  });

  it('assumes a tempo where none is marked', () => {
    const map = timeMapOf({ tempos: [], ticksPerQuarter }, [
      { startTicks: 0, endTicks: ticksPerQuarter * assumedTempo },
    ]);
    expect(map.lengthSeconds).toBeCloseTo(60, 9);
  });

  it('follows stretches in order of playing and finds the first playing of a place', () => {
    const again = [
      { startTicks: 0, endTicks: 960 },
      { startTicks: 0, endTicks: 480 },
      { startTicks: 960, endTicks: 1440 },
    ];
    const map = timeMapOf({ tempos: [{ onsetTicks: 0, quartersPerMinute: 60 }], ticksPerQuarter }, again);
    expect([0.5, 1.5, 2.5, 3.5].map((seconds) => ticksAtSeconds(map, seconds))).toEqual([240, 720, 240, 1200]);
    expect([240, 1200].map((ticks) => secondsAtTicks(map, ticks))).toEqual([0.5, 3.5]);
    expect(secondsOfRange(map, { startTicks: 480, endTicks: 960 })).toEqual({ startSeconds: 1, endSeconds: 2 });
    expect(secondsOfRange(map, { startTicks: 960, endTicks: 1440 })).toEqual({ startSeconds: 3, endSeconds: 4 });
  });

  it('takes the first pass that goes straight through a stretch; where none does, from its start to its end', () => {
    const tempo = [{ onsetTicks: 0, quartersPerMinute: 60 }];
    const repeated = [
      { startTicks: 0, endTicks: 1920 },
      { startTicks: 0, endTicks: 3840 },
    ];
    const map = timeMapOf({ tempos: tempo, ticksPerQuarter }, repeated);
    expect(secondsOfRange(map, { startTicks: 960, endTicks: 1440 })).toEqual({ startSeconds: 2, endSeconds: 3 });
    expect(secondsOfRange(map, { startTicks: 960, endTicks: 2880 })).toEqual({ startSeconds: 6, endSeconds: 10 });
    const endings = [
      { startTicks: 0, endTicks: 1920 },
      { startTicks: 0, endTicks: 960 },
      { startTicks: 1920, endTicks: 2880 },
    ];
    const jumping = timeMapOf({ tempos: tempo, ticksPerQuarter }, endings);
    expect(secondsOfRange(jumping, { startTicks: 480, endTicks: 2400 })).toEqual({ startSeconds: 1, endSeconds: 7 });
  });
});
