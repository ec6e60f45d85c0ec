import type { SongDetail } from '../../lib/api/songs.ts';
import { factRows } from './fact-words.ts';
import styles from './song.module.css';

interface FactsProps {
  readonly score: NonNullable<SongDetail['score']>;
}

/** What was read from the score. */
export const Facts = ({ score }: FactsProps) => (
  <section aria-labelledby="facts">
    <h2 id="facts">The score</h2>
    <p className={styles.quiet}>
      {score.fileName}, version {score.version}
    </p>
    <dl className={styles.facts}>
      {factRows(score.facts).map(([name, value]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd className="numbers">{value}</dd>
        </div>
      ))}
    </dl>
  </section>
);
