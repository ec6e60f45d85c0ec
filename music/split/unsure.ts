import type { Mark } from '../operations/split.ts';

/**
 * Proposals less sure than this are told as unsure. Confidence is the chance of being right, so more than one in four of them is expected to
 * be wrong: few enough to look at one by one, likely enough to be worth it.
 */
export const unsureBelow = 0.75;

/** Whether a mark is a proposal that may well be wrong; a person's mark never is. */
export const isUnsure = (mark: Pick<Mark, 'from' | 'confidence'> | undefined): boolean =>
  mark?.from === 'proposal' && mark.confidence !== null && mark.confidence < unsureBelow;
