import { useEffect, type ReactNode } from 'react';
import { Link } from 'react-router';
import { paths } from '../lib/paths.ts';
import { LogoMark } from './logo-mark.tsx';
import styles from './page-frame.module.css';

interface PageFrameProps {
  /** What the browser's tab says. */
  readonly title: string;
  /** Stands beside the mark: where one is. Without it the mark stands beside the name Heddle. */
  readonly place?: ReactNode;
  /** Stands at the far end of the top line. */
  readonly end?: ReactNode;
  /** `wide` leaves the score the whole width. */
  readonly width?: 'reading' | 'page' | 'wide';
  readonly children: ReactNode;
}

/** The frame of every screen: one line of text at the top, then the work. */
export function PageFrame({ title, place, end, width = 'page', children }: PageFrameProps) {
  useEffect(() => {
    document.title = title === 'Heddle' ? title : `${title} · Heddle`;
  }, [title]);
  return (
    <div className={styles.frame} data-width={width}>
      <a className={styles.skip} href="#work">
        To the work
      </a>
      <header className={styles.top}>
        <Link to={paths.shelf} className={styles.home} aria-label="Heddle, to your shelf">
          <LogoMark />
          {place === undefined ? <span>Heddle</span> : null}
        </Link>
        {place === undefined ? null : <div className={styles.place}>{place}</div>}
        <div className={styles.end}>{end}</div>
      </header>
      <main id="work" tabIndex={-1} className={styles.work}>
        {children}
      </main>
    </div>
  );
}
