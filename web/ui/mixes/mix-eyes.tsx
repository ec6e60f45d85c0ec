import { type Line, audibleLines } from '../../../music/index.ts';
import type { HeardMix } from '../../playback/named-mixes.ts';
import { Eye, type EyeTone } from '../eye.tsx';
import styles from './mixes.module.css';

interface MixEyesProps {
  readonly lines: readonly Line[];
  readonly heard: HeardMix;
}

/** How a line's eye looks in a mix: crossed where it is silent, faint where it is softer, bold where it is forward. */
export function mixTone({ settings, forward }: HeardMix, line: Line, isAudible: boolean): EyeTone {
  if (!isAudible) return 'silent';
  if (forward !== null) return forward === line.id ? 'forward' : 'faint';
  return (settings.get(line.id)?.levelDb ?? 0) < 0 ? 'faint' : 'plain';
}

/** All lines of a mix as small eyes: silent ones crossed, softer ones faint, the one forward bold. */
export function MixEyes({ lines, heard }: MixEyesProps) {
  const audible = audibleLines(
    lines.map(({ id }) => id),
    heard.settings,
  );
  return (
    <span className={styles.eyes}>
      {lines.map((line) => (
        <Eye key={line.id} line={line} size={24} tone={mixTone(heard, line, audible.includes(line.id))} />
      ))}
    </span>
  );
}
