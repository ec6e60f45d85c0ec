import type { Issue, IssueCode, IssuePlace } from '../basis/issue.ts';

/** A finding that makes a file unreadable, about the file as a whole unless a place is given. */
export const fileError = (code: IssueCode, detail: string, where: IssuePlace = { kind: 'file' }): Issue => ({
  code,
  where,
  severity: 'error',
  detail,
});
