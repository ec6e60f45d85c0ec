import type { ImportIssue } from '../../lib/api/songs.ts';
import { groupsOf } from './issue-words.ts';
import styles from './song.module.css';

interface IssueRowsProps {
  readonly issues: readonly ImportIssue[];
}

const shownPlaces = 8;

/** Findings, worst first, each with the bars and beats it is about. */
export const IssueRows = ({ issues }: IssueRowsProps) => (
  <ul className={styles.issues}>
    {groupsOf(issues).map((group) => (
      <li key={`${group.severity} ${group.detail}`} data-severity={group.severity}>
        <span>{group.detail}</span>
        <span className={styles.quiet}>
          {group.places.slice(0, shownPlaces).join('; ')}
          {group.places.length > shownPlaces ? ` and ${group.places.length - shownPlaces} more places` : ''}
        </span>
      </li>
    ))}
  </ul>
);
