import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { addAttempt, type Attempt, type AttemptDraft } from '../../lib/api/lessons.ts';
import { queries } from '../../lib/api/queries.ts';

export type Outcome = AttemptDraft['outcome'];

/** A student's own record of a lesson. */
export interface Practice {
  /** The latest outcome of a path step; null before the first. */
  readonly outcomeOf: (stepId: string, pathStepId: string) => Outcome | null;
  readonly mark: (attempt: AttemptDraft) => void;
  /** What could not be kept, in words; null while all is kept. */
  readonly trouble: unknown;
}

/** The latest outcome of each path step, by step and path step. */
export function latestOutcomes(attempts: readonly Attempt[]): ReadonlyMap<string, Outcome> {
  const inTime = [...attempts].sort((a, b) => (a.at < b.at ? -1 : 1));
  return new Map(inTime.map((attempt) => [`${attempt.stepId} ${attempt.pathStepId}`, attempt.outcome]));
}

/** A student's record of a release, kept on the server as it grows. */
export function usePractice(releaseId: string): Practice {
  const cache = useQueryClient();
  const { queryKey } = queries.attempts(releaseId);
  const { data } = useQuery({ ...queries.attempts(releaseId), throwOnError: false });
  const marking = useMutation({
    mutationFn: (draft: AttemptDraft) => addAttempt(releaseId, draft),
    onSuccess: (attempt) =>
      cache.setQueryData(queryKey, (known) => ({ attempts: [...(known?.attempts ?? []), attempt] })),
  });
  const outcomes = latestOutcomes(data?.attempts ?? []);
  return {
    outcomeOf: (stepId, pathStepId) => outcomes.get(`${stepId} ${pathStepId}`) ?? null,
    mark: marking.mutate,
    trouble: marking.error,
  };
}
