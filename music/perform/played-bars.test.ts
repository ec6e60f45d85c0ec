import { describe, expect, it } from 'vitest';
import { line, meter, note, pickup, ticksPerQuarter } from '../../tests/support/score-builders.ts';
import { allOn } from '../../tests/support/split-builders.ts';
import type { Score } from '../score/score.ts';
import { countInBefore } from './count-in.ts';
import type { Click, Performance, Subdivision } from './performance.ts';
import { performLines, type PerformOptions } from './perform-lines.ts';

const four = meter(4, 4);
const eighths = Array.from({ length: 8 }, () => note('E4', 0.5));
const paced = (score: Score, unit: 'eighth' | '16th' | null = null): Score => ({
  ...score,
  tempos: [{ onsetTicks: 0, quartersPerMinute: 60 }],
  swings: unit === null ? [] : [{ onsetTicks: 0, long: 2, short: 1, unit, isAssumed: false }],
});
const performed = (score: Score, options: PerformOptions = {}): Performance =>
  performLines(score, allOn(score), options);
const clicked = (clicks: readonly Click[], subdivision: Subdivision): number[] =>
  clicks.flatMap(({ subdivisions, atSeconds }) =>
    subdivisions.includes(subdivision) ? [Math.round(atSeconds * 1000) / 1000] : [],
  );

describe('[R57] the parts of beats', () => {
  it('are equal where nothing swings', () => {
    const { clicks } = performed(paced(line(four, ...eighths)));
    expect(clicked(clicks, 2).slice(0, 4)).toEqual([0, 0.5, 1, 1.5]);
    expect(clicked(clicks, 3).slice(0, 4)).toEqual([0, 0.333, 0.667, 1]);
    expect(clicked(clicks, 4).slice(0, 5)).toEqual([0, 0.25, 0.5, 0.75, 1]);
  });

  it('swing with the notes, but for thirds', () => {
    const { clicks, events } = performed(paced(line(four, ...eighths), 'eighth'));
    const onsets = events.map(({ onsetSeconds }) => Math.round(onsetSeconds * 1000) / 1000);
    expect(clicked(clicks, 2)).toEqual(onsets);
    expect(clicked(clicks, 3).slice(0, 4)).toEqual([0, 0.333, 0.667, 1]);
    const fine = performed(paced(line(four, ...eighths), '16th')).clicks;
    expect(clicked(fine, 2).slice(0, 3)).toEqual([0, 0.5, 1]);
    expect(clicked(fine, 4).slice(0, 5)).toEqual([0, 0.333, 0.5, 0.833, 1]);
  });

  it('wait where everything waits, and come in time after it', () => {
    const held = note('E4', 0.5, { techniques: ['fermata'] });
    const { clicks, events } = performed(paced(line(four, held, ...eighths.slice(1))));
    expect(events[1]!.onsetSeconds).toBeCloseTo(1.25, 9);
    expect(clicked(clicks, 4).slice(0, 4)).toEqual([0, 1.25, 1.5, 1.75]);
    expect(clicked(clicks, 3).slice(0, 3)).toEqual([0, 1.417, 1.75]);
  });

  it('click before the first whole beat of an excerpt, and not where a bar has ended', () => {
    const range = { startTicks: 0.5 * ticksPerQuarter, endTicks: 2.5 * ticksPerQuarter };
    expect(clicked(performed(paced(line(four, ...eighths)), { range }).clicks, 2)).toEqual([0, 0.5, 1, 1.5]);
    const cut = line([{ meter: four, quarters: 1.5 }, { meter: four }], ...eighths);
    expect(clicked(performed(paced(cut)).clicks, 4).slice(4, 8)).toEqual([1, 1.25, 1.5, 1.75]);
  });
});

describe('[R35] a count-in in swing', () => {
  it('is as long before a note off the beat as the swing makes it', () => {
    const performance = performed(paced(line(four, ...eighths), 'eighth'));
    const countIn = countInBefore(performance, performance.events[1]!.onsetSeconds, 1);
    expect(countIn.lengthSeconds).toBeCloseTo(4 + 2 / 3, 6);
    expect(clicked(countIn.clicks, 1)).toEqual([-4.667, -3.667, -2.667, -1.667, -0.667]);
    expect(clicked(countIn.clicks, 2).slice(0, 3)).toEqual([-4.667, -4, -3.667]);
  });

  it('leads to a pickup of the late half of a beat', () => {
    const score = paced(line(pickup(four, 0.5), ...eighths), 'eighth');
    expect(countInBefore(performed(score), 0, 1).lengthSeconds).toBeCloseTo(7 + 2 / 3, 6);
    const third = paced(line(four, note('E4', 1 / 3), note('E4', 2 / 3), note('E4', 3)), 'eighth');
    expect(countInBefore(performed(third), 1 / 3, 1).lengthSeconds).toBeCloseTo(4 + 1 / 3, 6);
  });
});
