import { describe, expect, it } from 'vitest';
import { WholeHearing, type Progress } from './whole-hearing.ts';

const lengthSeconds = 8;
const at = (positionSeconds: number): Progress => ({ isPlaying: true, stageKind: 'play', positionSeconds });
const endAt = (positionSeconds: number): Progress => ({ ...at(positionSeconds), isPlaying: false });
const run = (from: number, to: number): Progress[] =>
  Array.from({ length: Math.ceil((to - from) * 10) }, (_, index) => at(from + index / 10));

/** The places in a list of reports at which a whole hearing is complete. */
function completions(reports: readonly Progress[]): readonly number[] {
  const hearing = new WholeHearing();
  hearing.begin();
  return reports.flatMap((report, index) => (hearing.follow(report, lengthSeconds) ? [index] : []));
}

describe('a whole hearing', () => {
  it('is complete at the end, and not a moment before', () => {
    const reports = [...run(0, lengthSeconds), endAt(lengthSeconds)];
    expect(completions(reports)).toEqual([reports.length - 1]);
  });

  it('is complete at each seam of a loop', () => {
    const pass = run(0, lengthSeconds);
    expect(completions([...pass, ...pass, at(0)])).toEqual([pass.length, 2 * pass.length]);
  });

  it('does not begin in the middle, but the next pass does count', () => {
    const tail = run(3, lengthSeconds);
    expect(completions([...tail, endAt(lengthSeconds)])).toEqual([]);
    expect(completions([...tail, ...run(0, lengthSeconds), at(0)])).toEqual([tail.length + lengthSeconds * 10]);
  });

  it('is not what stops before the end, nor a loop over the first half', () => {
    expect(completions([...run(0, 5), endAt(5)])).toEqual([]);
    expect(completions([...run(0, 4), ...run(0, 4), at(0)])).toEqual([]);
  });

  it('is not put together from two playings', () => {
    const hearing = new WholeHearing();
    hearing.begin();
    for (const report of run(0, 5)) hearing.follow(report, lengthSeconds);
    hearing.begin();
    const later = [...run(5, lengthSeconds), endAt(lengthSeconds)];
    expect(later.some((report) => hearing.follow(report, lengthSeconds))).toBe(false);
  });

  it('leaves a count-in out', () => {
    const countIn: Progress = { isPlaying: true, stageKind: 'countIn', positionSeconds: 0 };
    const reports = [countIn, countIn, ...run(0, lengthSeconds), endAt(lengthSeconds)];
    expect(completions(reports)).toEqual([reports.length - 1]);
  });
});
