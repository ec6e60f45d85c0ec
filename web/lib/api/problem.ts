import { problem, type ErrorCode, type Problem } from '../../../contract/index.ts';

/** Why a request brought nothing: the server said so, or it could not be reached. */
export class RequestFailed extends Error {
  readonly code: ErrorCode | 'offline' | 'unreadable';
  readonly detail: string;
  readonly issues: readonly unknown[];
  readonly requestId: string | null;

  constructor(code: ErrorCode | 'offline' | 'unreadable', detail: string, body: Problem | null = null) {
    super(`${code}: ${detail}`);
    this.code = code;
    this.detail = detail;
    this.issues = body?.issues ?? [];
    this.requestId = body?.requestId ?? null;
  }
}

/** The failure that a response other than 2xx stands for. */
export function failureOf(status: number, body: unknown): RequestFailed {
  const parsed = problem.safeParse(body);
  if (parsed.success) return new RequestFailed(parsed.data.code, parsed.data.detail, parsed.data);
  return new RequestFailed('unreadable', `The server answered ${status} with something that Heddle cannot read.`);
}

/** The failure that a request without any response stands for. */
export const offlineFailure = (): RequestFailed =>
  new RequestFailed(
    'offline',
    'The server cannot be reached just now. Nothing that you wrote here is lost; try again in a moment.',
  );

/** What to tell a person about anything that was thrown. */
export function plainWords(thrown: unknown): string {
  if (thrown instanceof RequestFailed) {
    return thrown.code === 'internal' && thrown.requestId !== null
      ? `${thrown.detail} (request ${thrown.requestId})`
      : thrown.detail;
  }
  return thrown instanceof Error ? thrown.message : 'Something went wrong that has no name yet.';
}

/** Whether a thrown thing is the failure with this code. */
export const isFailure = (thrown: unknown, code: RequestFailed['code']): boolean =>
  thrown instanceof RequestFailed && thrown.code === code;
