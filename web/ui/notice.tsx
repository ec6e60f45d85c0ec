import type { ReactNode } from 'react';
import styles from './notice.module.css';

interface NoticeProps {
  /** `trouble` is read out at once. */
  readonly kind: 'word' | 'trouble';
  readonly children: ReactNode;
}

/** A note in the margin. */
export const Notice = ({ kind, children }: NoticeProps) => (
  <div className={styles.notice} data-kind={kind} role={kind === 'trouble' ? 'alert' : 'note'}>
    {children}
  </div>
);

interface WaitProps {
  readonly children: ReactNode;
}

/** What is being fetched, in words. */
export const Wait = ({ children }: WaitProps) => (
  <p className={styles.wait} role="status">
    {children}
  </p>
);

interface CountedProgressProps {
  readonly label: string;
  readonly done: number;
  readonly total: number;
}

/** A thread that is drawn through as work goes on, with the count beside it. */
export const CountedProgress = ({ label, done, total }: CountedProgressProps) => (
  <div className={styles.progress}>
    <span>{label}</span>
    <progress value={done} max={total} aria-label={label} />
    <span className="numbers">{total === 0 ? 0 : Math.floor((100 * done) / total)} %</span>
  </div>
);
