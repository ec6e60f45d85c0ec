import { useEffect } from 'react';
import type { Practice } from './practice.ts';
import type { Listening } from './use-listening.ts';

/** Marks a step to hear as heard, once, when it has sounded from its beginning to its end. */
export function useHeardMark(stepId: string, listening: Listening, practice: Practice | null): void {
  const { chosen, player } = listening;
  const isNew = chosen?.kind === 'hear' && practice?.outcomeOf(stepId, chosen.id) === null;
  const mark = practice?.mark;
  const pathStepId = chosen?.id;
  useEffect(() => {
    if (!isNew || pathStepId === undefined || mark === undefined) return undefined;
    return player.onWhole(() => mark({ stepId, pathStepId, outcome: 'heard' }));
  }, [player, isNew, pathStepId, stepId, mark]);
}
