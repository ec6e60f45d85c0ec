import { HttpException } from '@nestjs/common';
import { errorStatus, type ErrorCode, type Problem } from '../../contract/index.ts';
import { isDatabaseAway } from './database-away.ts';
import { DomainError } from './domain-error.ts';

const titles: Readonly<Record<ErrorCode, string>> = {
  'body-invalid': 'The request is not in the right form',
  'file-refused': 'The file could not be read',
  'not-signed-in': 'Nobody is signed in',
  'not-permitted': 'This is not yours to do',
  'not-found': 'Not found',
  'already-there': 'This is there already',
  'operation-differs': 'Another change was sent under the same name',
  'operation-unknown-note': 'The score has no such note',
  'operation-unknown-line': 'The split has no such line',
  'code-expired': 'The link or code has run out',
  'changed-meanwhile': 'Somebody else changed this meanwhile',
  'precondition-missing': 'The version that you saw is missing',
  'too-large': 'Too large',
  'too-many-requests': 'Too many tries',
  'nothing-to-split': 'There is no score to split yet',
  'reading-timed-out': 'Reading the file took too long',
  'origin-refused': 'The request came from another site',
  unavailable: 'Out of reach for a moment',
  internal: 'Something went wrong on our side',
};

const AWAY =
  'The database does not answer just now. What was confirmed is kept; whether this request was written is not known. Try again in a moment.';

const codeOfStatus: Readonly<Record<number, ErrorCode>> = {
  400: 'body-invalid',
  401: 'not-signed-in',
  403: 'not-permitted',
  404: 'not-found',
  405: 'not-found',
  413: 'too-large',
  415: 'body-invalid',
  429: 'too-many-requests',
};

const details: Readonly<Partial<Record<ErrorCode, string>>> = {
  'not-found': 'There is nothing at this address.',
  'too-large': 'The request is larger than what is accepted here.',
  'too-many-requests': 'Please wait a minute, then try again.',
};

/** The code and sentence that an error thrown anywhere comes down to; null for a bug of ours. */
function refusalOf(error: unknown): { code: ErrorCode; detail: string; issues: readonly unknown[] | null } | null {
  if (error instanceof DomainError) return { code: error.code, detail: error.message, issues: error.issues };
  if (isDatabaseAway(error)) return { code: 'unavailable', detail: AWAY, issues: null };
  const status = error instanceof HttpException ? error.getStatus() : statusOf(error);
  const code = status === null ? undefined : codeOfStatus[status];
  if (code === undefined) return null;
  const message = error instanceof Error ? error.message : titles[code];
  return { code, detail: details[code] ?? message, issues: null };
}

function statusOf(error: unknown): number | null {
  const status = (error as { statusCode?: unknown } | null)?.statusCode;
  return typeof status === 'number' ? status : null;
}

/** The RFC 9457 body for an error. **Errors** none: whatever is unknown becomes `internal` without telling its cause. */
export function problemOf(error: unknown, requestId: string): Problem {
  const { code, detail, issues } = refusalOf(error) ?? {
    code: 'internal' as const,
    detail: `Nothing that was saved is lost. If it happens again, tell us this number: ${requestId}`,
    issues: null,
  };
  const body = { type: `/api/docs#${code}`, title: titles[code], status: errorStatus[code], code, detail, requestId };
  return issues === null ? body : { ...body, issues: [...issues] };
}
