import type { Line } from '../../music/index.ts';
import { dyePaint } from './dye.ts';
import styles from './eye.module.css';

/** What an eye tells about its line: heard as usual, forward, faint (heard less) or silent. */
export type EyeTone = 'plain' | 'forward' | 'faint' | 'silent';

interface EyeProps {
  readonly line: Pick<Line, 'letter' | 'dye'>;
  readonly tone?: EyeTone;
  /** Height in pixels. */
  readonly size?: number;
}

/** A line's tag: the upright oval that its thread passes through, with its letter. A picture only; name it beside. */
export function Eye({ line, tone = 'plain', size = 36 }: EyeProps) {
  const paint = dyePaint[line.dye];
  return (
    <svg
      className={styles.eye}
      data-tone={tone}
      width={(size * 30) / 36}
      height={size}
      viewBox="-15 -18 30 36"
      aria-hidden="true"
    >
      <ellipse rx="12" ry="15" fill="var(--paper)" stroke={paint.colour} strokeWidth={tone === 'forward' ? 5 : 3.2} />
      <text y="5.4" textAnchor="middle" className={styles.letter}>
        {line.letter}
      </text>
      {tone === 'silent' ? <path d="M-11 13L11 -13" stroke={paint.colour} strokeWidth="2.4" /> : null}
    </svg>
  );
}
