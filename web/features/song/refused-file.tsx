import { z } from 'zod';
import { importIssue } from '../../../contract/index.ts';
import { plainWords, RequestFailed } from '../../lib/api/problem.ts';
import { Notice } from '../../ui/notice.tsx';
import { IssueRows } from './issue-rows.tsx';

interface RefusedFileProps {
  readonly failure: unknown;
  readonly hasScore: boolean;
}

/** Why a file was refused: what, where, what was kept. */
export function RefusedFile({ failure, hasScore }: RefusedFileProps) {
  const issues = failure instanceof RequestFailed ? (z.array(importIssue).safeParse(failure.issues).data ?? []) : [];
  return (
    <Notice kind="trouble">
      <p>{plainWords(failure)}</p>
      <IssueRows issues={issues} />
      <p>
        {hasScore ? 'The score that was here is untouched, and so is its split.' : 'Nothing else was changed.'} Mend the
        file where it was made, or try another one.
      </p>
    </Notice>
  );
}
