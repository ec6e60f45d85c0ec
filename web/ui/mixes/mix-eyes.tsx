import type { Line } from '../../../music/index.ts';
import { lineTones } from '../../playback/line-tones.ts';
import type { HeardMix } from '../../playback/named-mixes.ts';
import { Eye } from '../eye.tsx';
import styles from './mixes.module.css';

interface MixEyesProps {
  readonly lines: readonly Line[];
  readonly heard: HeardMix;
}

/** All lines of a mix as small eyes: silent ones crossed, softer ones faint, the one forward bold. */
export function MixEyes({ lines, heard }: MixEyesProps) {
  const tones = lineTones(
    lines.map(({ id }) => id),
    heard,
  );
  return (
    <span className={styles.eyes}>
      {lines.map((line) => (
        <Eye key={line.id} line={line} size={24} tone={tones.get(line.id) ?? 'plain'} />
      ))}
    </span>
  );
}
