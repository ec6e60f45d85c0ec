import type { Dye } from '../../../music/index.ts';
import { dyePaint } from '../../ui/dye.ts';
import styles from './ribbon-sheet.module.css';
import { edgesOf, outlineOf, threadOf, type Run } from './stroke.ts';

interface WovenRibbonProps {
  readonly id: string;
  readonly dye: Dye;
  readonly runs: readonly Run[];
  readonly isPale: boolean;
}

/** Threads along the ribbon whose dashes alternate, as a plain weave shows its warp. */
const warp = [-0.82, -0.5, -0.18, 0.18, 0.5, 0.82];

/** One line's ribbon in one row: a gap of paper around it, the dyed band, its weave, the line's stitch along the middle. */
export function WovenRibbon({ id, dye, runs, isPale }: WovenRibbonProps) {
  const paint = dyePaint[dye];
  const outline = runs.map(({ sections }) => outlineOf(sections)).join('');
  const edges = runs.map(({ sections }) => edgesOf(sections)).join('');
  const middle = runs.map(({ sections }) => threadOf(sections, 0)).join('');
  return (
    <g id={id} data-dye={dye} className={styles.ribbon} data-pale={isPale}>
      <path d={edges} className={styles.gap} />
      <path d={outline} fill={paint.colour} />
      {warp.map((fraction, index) => (
        <path
          key={fraction}
          d={runs.map(({ sections }) => threadOf(sections, fraction)).join('')}
          className={styles.warp}
          strokeDashoffset={index % 2 === 0 ? 0 : 3}
        />
      ))}
      <path d={edges} className={styles.selvedge} stroke={paint.colour} />
      <path d={middle} className={styles.stitch} strokeDasharray={paint.stitch} />
    </g>
  );
}
