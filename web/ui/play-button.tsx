import { Button } from 'react-aria-components';
import styles from './play-button.module.css';

interface PlayButtonProps {
  readonly isPlaying: boolean;
  readonly label: string;
  readonly onPress: () => void;
}

/** Starts and stops what sounds. */
export const PlayButton = ({ isPlaying, label, onPress }: PlayButtonProps) => (
  <Button className={styles.play ?? ''} aria-label={label} onPress={onPress}>
    <svg width="46" height="46" viewBox="-23 -23 46 46" aria-hidden="true">
      <ellipse rx="20" ry="22" fill="currentColor" />
      <path d={isPlaying ? 'M-7 -7H7V7H-7Z' : 'M-5 -8L9 0L-5 8Z'} fill="var(--play-mark)" />
    </svg>
  </Button>
);
