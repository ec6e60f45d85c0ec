import type { ImportIssue } from '../../lib/api/songs.ts';
import { IssueRows } from './issue-rows.tsx';
import { reportSentence } from './issue-words.ts';
import styles from './song.module.css';

interface ImportReportProps {
  readonly issues: readonly ImportIssue[];
}

/** What was found while the file was read. */
export function ImportReport({ issues }: ImportReportProps) {
  const urgent = issues.filter((issue) => issue.severity !== 'note');
  return (
    <section aria-labelledby="report" className={styles.report}>
      <h2 id="report">Import report</h2>
      <p>{reportSentence(issues)}</p>
      {urgent.length === 0 ? null : <IssueRows issues={urgent} />}
      {issues.length > urgent.length ? (
        <details>
          <summary>Good to know</summary>
          <IssueRows issues={issues.filter((issue) => issue.severity === 'note')} />
        </details>
      ) : null}
    </section>
  );
}
