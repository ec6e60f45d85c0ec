import type { SongDetail } from '../../lib/api/songs.ts';
import { paths } from '../../lib/paths.ts';
import { FilledLink } from '../../ui/buttons.tsx';
import styles from './song.module.css';

interface SplitStateProps {
  readonly song: SongDetail;
}

function sentence({ lineCount, looseNoteCount }: SongDetail): string {
  const lines = lineCount === 1 ? 'one line' : `${lineCount} lines`;
  if (lineCount === 0)
    return 'No line yet. Open the table and let Heddle propose some, or make the first one yourself.';
  if (looseNoteCount === null || looseNoteCount === 0)
    return `${lines.charAt(0).toUpperCase()}${lines.slice(1)}, and every note is on one.`;
  return `${lines.charAt(0).toUpperCase()}${lines.slice(1)}. ${looseNoteCount === 1 ? 'One note is' : `${looseNoteCount} notes are`} on no line yet.`;
}

/** How far the split is, and the way to the table. */
export function SplitState({ song }: SplitStateProps) {
  const total = song.score?.facts.soundingNotes ?? 0;
  const placed = total === 0 ? 0 : Math.max(0, 1 - (song.looseNoteCount ?? 0) / total);
  return (
    <section aria-labelledby="split" className={styles.split}>
      <h2 id="split">Its lines</h2>
      <p>{sentence(song)}</p>
      <svg viewBox="0 0 400 14" preserveAspectRatio="none" className={styles.braid} aria-hidden="true">
        <path d="M0 7H400" stroke="var(--rule)" strokeWidth="2" strokeDasharray="3 5" />
        <path
          d={`M0 7Q25 -3 50 7T100 7T150 7T200 7T250 7T300 7T350 7T400 7`}
          pathLength="1"
          strokeDasharray={`${placed} 1`}
          fill="none"
          stroke="var(--madder)"
          strokeWidth="2.6"
        />
        <path
          d={`M0 7Q25 17 50 7T100 7T150 7T200 7T250 7T300 7T350 7T400 7`}
          pathLength="1"
          strokeDasharray={`${placed} 1`}
          fill="none"
          stroke="var(--indigo)"
          strokeWidth="2.6"
        />
      </svg>
      <FilledLink to={paths.table(song.id)}>Open the splitting table</FilledLink>
    </section>
  );
}
