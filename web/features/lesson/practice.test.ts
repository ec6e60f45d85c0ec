import { describe, expect, it } from 'vitest';
import type { Attempt } from '../../lib/api/lessons.ts';
import { latestOutcomes } from './practice.ts';

const attempt = (at: string, outcome: Attempt['outcome'], pathStepId = 'p1'): Attempt => ({
  id: at,
  at,
  stepId: 's1',
  pathStepId,
  outcome,
});

describe('the latest outcomes', () => {
  it('are those of the last try of each path step, whatever the order of the list', () => {
    const outcomes = latestOutcomes([
      attempt('2026-01-03T10:00:00Z', 'sang'),
      attempt('2026-01-01T10:00:00Z', 'notYet'),
      attempt('2026-01-02T10:00:00Z', 'heard', 'p2'),
    ]);
    expect([...outcomes].sort()).toEqual([
      ['s1 p1', 'sang'],
      ['s1 p2', 'heard'],
    ]);
  });
});
