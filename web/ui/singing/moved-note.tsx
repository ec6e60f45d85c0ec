import { moveWords } from '../../lib/singing-words.ts';
import type { Singing } from '../../playback/use-singing.ts';
import styles from './singing.module.css';

interface MovedNoteProps {
  readonly singing: Singing;
  /** Whether the music is shown as it is written, or as it sounds. */
  readonly shown: 'written' | 'sounding';
}

/** What stands over music that is moved for singing; nothing where it is not. */
export function MovedNote({ singing: { move }, shown }: MovedNoteProps) {
  const words = moveWords(move);
  if (words === null) return null;
  const paper = shown === 'written' ? 'The score shows it as written.' : 'The ribbons show it as it sounds.';
  return (
    <p className={styles.moved} role="note">
      {words} {paper}
    </p>
  );
}
