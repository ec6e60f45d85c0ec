import type { ErrorCode } from '../../contract/index.ts';

/** A rule that a request would break. The filter and the gateway turn its code into a refusal. */
export class DomainError extends Error {
  override readonly name = 'DomainError';
  readonly code: ErrorCode;
  readonly issues: readonly unknown[] | null;

  constructor(code: ErrorCode, detail: string, issues: readonly unknown[] | null = null) {
    super(detail);
    this.code = code;
    this.issues = issues;
  }
}

/** Unknown to the person who asks: the same answer whether or not it exists. */
export const notFound = (what: string): DomainError =>
  new DomainError('not-found', `There is no such ${what}, or it is not shared with you.`);

/** Known to the person who asks, but not theirs to do. */
export const notPermitted = (detail: string): DomainError => new DomainError('not-permitted', detail);
