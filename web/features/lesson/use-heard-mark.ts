import { useEffect } from 'react';
import type { Practice } from './practice.ts';
import type { Listening } from './use-listening.ts';

/** Marks a step to hear as heard, once, when it sounds for the first time. */
export function useHeardMark(stepId: string, listening: Listening, practice: Practice | null): void {
  const { chosen, snapshot } = listening;
  const isSounding = snapshot.status === 'playing';
  const isNew = chosen?.kind === 'hear' && practice?.outcomeOf(stepId, chosen.id) === null;
  const mark = practice?.mark;
  const pathStepId = chosen?.id;
  useEffect(() => {
    if (isSounding && isNew && pathStepId !== undefined) mark?.({ stepId, pathStepId, outcome: 'heard' });
  }, [isSounding, isNew, pathStepId, stepId, mark]);
}
