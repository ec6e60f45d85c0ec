import type { NoteId } from '../../../music/index.ts';
import styles from './ribbon-sheet.module.css';

/** What is told of notes in ink: which are unsure, which would follow, which are chosen, and the one that the slip is about. */
export interface RibbonInk {
  readonly unsure: ReadonlySet<NoteId>;
  readonly follows: ReadonlySet<NoteId>;
  readonly chosen: ReadonlySet<NoteId>;
  readonly cursor: NoteId | null;
}

interface NoteInkProps {
  readonly note: NoteId;
  readonly ink: RibbonInk | null;
  readonly isSmall: boolean;
}

/** The rings and the question mark of one note on its ribbon. */
export function NoteInk({ note, ink, isSmall }: NoteInkProps) {
  if (ink === null) return null;
  const [rx, ry] = isSmall ? [7, 8.5] : [11.5, 13.5];
  const ring = ink.follows.has(note) ? 'follows' : ink.chosen.has(note) ? 'chosen' : null;
  return (
    <g pointerEvents="none">
      {ring === null ? null : <ellipse rx={rx} ry={ry} className={styles.ring} data-ring={ring} />}
      {ink.cursor === note ? <ellipse rx={rx + 3} ry={ry + 5} className={styles.cursor} /> : null}
      {ink.unsure.has(note) ? (
        <g transform={`translate(${rx - 1} ${-ry - 2})`} data-unsure="">
          <circle r="6.5" className={styles.question} />
          {/* Drawn, since a word of the screen would have to stand in the note's spoken name. */}
          <path d="M-2.1 -1.8a2.1 2.1 0 1 1 3.3 1.7c-.8.5-1.2.9-1.2 1.7m0 2v.1" className={styles.questionMark} />
        </g>
      ) : null}
    </g>
  );
}
