import type { Line } from '../../music/index.ts';
import { dyePaint } from './dye.ts';
import type { EyeTone } from './eye-tone.ts';
import styles from './eye.module.css';

interface EyeProps {
  readonly line: Pick<Line, 'letter' | 'dye'>;
  readonly tone?: EyeTone;
  /** Height in pixels. */
  readonly size?: number;
}

/** A line's tag: the upright oval that its thread passes through, with its letter. A picture only; name it beside. */
export function Eye({ line, tone = 'plain', size = 38 }: EyeProps) {
  const paint = dyePaint[line.dye];
  return (
    <svg
      className={styles.eye}
      data-tone={tone}
      width={(size * 32) / 38}
      height={size}
      viewBox="-16 -19 32 38"
      aria-hidden="true"
    >
      <ellipse rx="12.5" ry="16" fill="var(--paper)" stroke={paint.colour} strokeWidth={tone === 'forward' ? 5.2 : 3} />
      <text y="5.2" textAnchor="middle" className={styles.letter}>
        {line.letter}
      </text>
      {tone === 'silent' ? <path d="M-11 14L11 -14" stroke={paint.colour} strokeWidth="2.4" /> : null}
    </svg>
  );
}
