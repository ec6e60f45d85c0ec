import { describe, expect, it } from 'vitest';
import { reliabilityOf, type Claim } from './reliability.ts';

const claims = (...rows: readonly (readonly [confidence: number, isRight: boolean])[]): readonly Claim[] =>
  rows.map(([confidence, isRight]) => ({ confidence, isRight }));

// Every figure below is counted by hand.
describe('reliabilityOf', () => {
  it('sorts claims into tenths, 1 into the last', () => {
    const { bins } = reliabilityOf(claims([0, false], [0.05, true], [0.1, true], [0.95, true], [1, false]));
    expect(bins.map(({ count }) => count)).toEqual([2, 1, 0, 0, 0, 0, 0, 0, 0, 2]);
    expect(bins[9]).toEqual({ count: 2, meanConfidence: 0.975, rightShare: 0.5 });
  });

  it('has no error where as many come true as were claimed, and the distance where not', () => {
    const half = claims([0.5, true], [0.5, false]);
    expect(reliabilityOf(half).calibrationError).toBe(0);
    expect(reliabilityOf(claims([0.9, true], [0.9, false], [0.9, false], [0.9, false])).calibrationError).toBeCloseTo(
      0.65,
    );
    expect(reliabilityOf([...half, ...claims([0.85, false], [0.85, true])]).calibrationError).toBeCloseTo(0.175);
  });

  it('tells how often a right note is surer than a wrong one', () => {
    expect(reliabilityOf(claims([0.9, true], [0.2, false])).auroc).toBe(1);
    expect(reliabilityOf(claims([0.2, true], [0.9, false])).auroc).toBe(0);
    expect(reliabilityOf(claims([0.5, true], [0.5, false])).auroc).toBe(0.5);
    // Of six pairs: 0.8 beats both, 0.4 beats one and ties the other, 0.1 beats none.
    expect(reliabilityOf(claims([0.8, true], [0.4, true], [0.1, true], [0.4, false], [0.3, false])).auroc).toBeCloseTo(
      3.5 / 6,
    );
    expect(reliabilityOf(claims([0.9, true])).auroc).toBeNull();
  });

  it('has nothing to say of nothing', () => {
    expect(reliabilityOf([])).toMatchObject({ calibrationError: 0, auroc: null });
  });
});
