import { describe, expect, it } from 'vitest';
import { allOn } from '../../tests/support/split-builders.ts';
import { line, meter, note, pickup, ticksPerQuarter, type BarPlan } from '../../tests/support/score-builders.ts';
import { beatTicksOf } from './beats.ts';
import { countInBefore } from './count-in.ts';
import { performLines } from './perform-lines.ts';
import type { Click } from './performance.ts';

const quarter = ticksPerQuarter;
const beatsOf = (clicks: readonly Click[]): Click[] => clicks.filter(({ accent }) => accent !== 'part');
const rounded = (values: readonly number[]): number[] => values.map((value) => Math.round(value * 1000) / 1000);

describe('where beats fall', () => {
  it.each([
    ['4/4', meter(4, 4), [0, 1, 2, 3]],
    ['3/4', meter(3, 4), [0, 1, 2]],
    ['6/8 in two', meter(6, 8), [0, 1.5]],
    ['12/8 in four', meter(12, 8), [0, 1.5, 3, 4.5]],
    ['3/8 in three', meter(3, 8), [0, 0.5, 1]],
    ['3+2/8 by groups', meter([3, 2], 8), [0, 1.5]],
    ['2/2', meter(2, 2), [0, 2]],
  ])('%s', (_, each, quarters) => {
    expect(beatTicksOf(each, quarter)).toEqual(quarters.map((beat) => beat * quarter));
  });
});

describe('the click', () => {
  const performed = (plans: readonly BarPlan[], quarters: number) => {
    const score = line(plans, ...Array.from({ length: quarters }, () => note('E4', 1)));
    const timed = { ...score, tempos: [{ onsetTicks: 0, quartersPerMinute: 60 }] };
    return { beats: beatsOf(performLines(timed, allOn(score)).clicks) };
  };

  it('marks the first beat of each bar, and a pickup as the end of a bar', () => {
    const { beats } = performed(pickup(meter(3, 4), 1), 7);
    expect(rounded(beats.map((beat) => beat.atSeconds))).toEqual([0, 1, 2, 3, 4, 5, 6]);
    expect(beats.map((beat) => beat.accent)).toEqual(['beat', 'bar', 'beat', 'beat', 'bar', 'beat', 'beat']);
  });

  it('goes on counting in a bar longer than its meter', () => {
    expect(performed([{ meter: meter(4, 4), quarters: 5 }], 5).beats).toHaveLength(5);
  });

  it('counts the halves of a split bar as one bar', () => {
    const halves: readonly BarPlan[] = [
      { meter: meter(4, 4) },
      { meter: meter(4, 4), quarters: 3 },
      { meter: meter(4, 4), quarters: 1 },
      { meter: meter(4, 4) },
    ];
    const { beats } = performed(halves, 12);
    expect(beats.flatMap((beat, index) => (beat.accent === 'bar' ? [index] : []))).toEqual([0, 4, 8]);
  });
});

describe('[R35] the count-in', () => {
  const score = line(pickup(meter(4, 4), 1), ...Array.from({ length: 9 }, () => note('E4', 1)));
  const split = allOn(score);
  const timed = { ...score, tempos: [{ onsetTicks: 0, quartersPerMinute: 60 }] };

  it('counts whole bars before a bar', () => {
    const performance = performLines(timed, split, { range: { startTicks: quarter, endTicks: quarter * 5 } });
    const countIn = countInBefore(performance, 0, 1);
    expect(countIn.lengthSeconds).toBeCloseTo(4, 9);
    expect(rounded(beatsOf(countIn.clicks).map((beat) => beat.atSeconds))).toEqual([-4, -3, -2, -1]);
    expect(countInBefore(performance, 0, 2).lengthSeconds).toBeCloseTo(8, 9);
    expect(countInBefore(performance, 0, 0)).toEqual({ clicks: [], lengthSeconds: 0 });
  });

  it('covers the part-bar before a pickup and before an excerpt that begins within a bar', () => {
    const whole = performLines(timed, split);
    const countIn = countInBefore(whole, 0, 1);
    expect(rounded(beatsOf(countIn.clicks).map((beat) => beat.atSeconds))).toEqual([-7, -6, -5, -4, -3, -2, -1]);
    expect(beatsOf(countIn.clicks).map((beat) => beat.accent === 'bar')).toEqual([
      true,
      false,
      false,
      false,
      true,
      false,
      false,
    ]);
    const within = performLines(timed, split, { range: { startTicks: quarter * 3, endTicks: quarter * 9 } });
    expect(rounded(beatsOf(countInBefore(within, 0, 1).clicks).map((beat) => beat.atSeconds))).toEqual([
      -6, -5, -4, -3, -2, -1,
    ]);
  });

  it('keeps the tempo of the place where playing begins', () => {
    const faster = { ...timed, tempos: [...timed.tempos, { onsetTicks: quarter * 5, quartersPerMinute: 120 }] };
    const performance = performLines(faster, split);
    expect(countInBefore(performance, 5, 1).lengthSeconds).toBeCloseTo(2, 9);
  });
});
