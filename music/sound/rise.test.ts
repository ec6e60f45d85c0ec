import { describe, expect, it } from 'vitest';
import { Rise } from '../index.ts';
import { dbOfGain } from './level.ts';

const rate = 48_000;
const ones = (): Float32Array => new Float32Array(128).fill(1);

function risen(rise: Rise, seconds: number): number[] {
  return Array.from({ length: (seconds * rate) / 128 }, () => {
    const [left, right] = [ones(), ones()];
    rise.apply(left, right);
    expect(right).toEqual(left);
    return [...left];
  }).flat();
}

describe('the rise of a first sound', () => {
  it('begins at −12 dB, gains a decibel every twelfth of a second, and ends exactly as it is after one second', () => {
    const rise = new Rise(rate);
    rise.begin();
    const gains = risen(rise, 1.2);
    for (const twelfth of [0, 1, 4, 9, 11])
      expect(dbOfGain(gains[(twelfth * rate) / 12] as number)).toBeCloseTo(twelfth - 12, 3);
    expect(gains.every((gain, at) => gain >= (gains[at - 1] ?? 0))).toBe(true);
    expect(new Set(gains.slice(rate + 128))).toEqual(new Set([1]));
  });

  it('changes nothing before it begins and after it ended', () => {
    expect(new Set(risen(new Rise(rate), 0.1))).toEqual(new Set([1]));
  });
});
