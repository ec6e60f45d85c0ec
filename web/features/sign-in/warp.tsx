import type { Dye } from '../../../music/index.ts';
import { dyePaint } from '../../ui/dye.ts';
import styles from './sign-in.module.css';

const threads: readonly { readonly dye: Dye; readonly letter: string; readonly y: number; readonly path: string }[] = [
  { dye: 'madder', letter: 'M', y: 78, path: 'M0 150C90 150 96 78 180 78S300 150 420 150' },
  { dye: 'verdigris', letter: 'V', y: 178, path: 'M0 178H420' },
  { dye: 'indigo', letter: 'B', y: 206, path: 'M0 206H420' },
  { dye: 'walnut', letter: 'P', y: 234, path: 'M0 234H420' },
];

/** Four threads through four eyes, the first lifted away from the others: what the tool does, drawn. */
export const Warp = () => (
  <svg className={styles.warp} viewBox="0 0 420 320" aria-hidden="true">
    {threads.map(({ dye, y }, index) => (
      <path
        key={dye}
        d={`M${180 + index * 26} 8V${y - 15}M${180 + index * 26} ${y + 15}V312`}
        stroke="var(--edge)"
        strokeWidth="1.4"
      />
    ))}
    {threads.map(({ dye, path }) => (
      <path
        key={dye}
        d={path}
        fill="none"
        stroke={dyePaint[dye].colour}
        strokeWidth="4"
        strokeDasharray={dyePaint[dye].stitch}
        strokeLinecap={dye === 'walnut' ? 'round' : 'butt'}
      />
    ))}
    {threads.map(({ dye, letter, y }, index) => (
      <g key={dye} transform={`translate(${180 + index * 26} ${y})`}>
        <ellipse rx="10" ry="15" fill="var(--paper)" stroke={dyePaint[dye].colour} strokeWidth="3" />
        <text y="4.6" textAnchor="middle" className={styles.letter}>
          {letter}
        </text>
      </g>
    ))}
  </svg>
);
