import { useEffect, useMemo, useRef, type ReactNode } from 'react';
import {
  ticksOfExcerpt,
  type Excerpt,
  type Line,
  type LineId,
  type NoteId,
  type Score,
  type Split,
} from '../../../music/index.ts';
import { rowAt, sheetOf, type Sheet } from './layout.ts';
import type { PlaceSource } from './place-source.ts';
import styles from './ribbon-sheet.module.css';
import { RibbonRow } from './ribbon-row.tsx';
import type { RibbonInk } from './note-ink.tsx';
import type { NoteLabels } from './note-labels.ts';
import { strandsOf, sungStrands, type SungLine } from './strands.ts';
import { useNoteWalk } from './use-note-walk.ts';
import { useWidth } from './use-width.ts';

/** What a ribbon sheet is made from. */
export interface RibbonSheetProps {
  readonly score: Score;
  readonly split: Pick<Split, 'lines' | 'marks'>;
  readonly excerpt: Excerpt;
  /** How hard a note is played, 0 to 1. */
  readonly strengthOf: (note: NoteId) => number;
  /** The lines that are drawn; all without it. */
  readonly shown?: ReadonlySet<LineId>;
  /** The lines that stand out; the others pale. All alike without it. */
  readonly lifted?: ReadonlySet<LineId>;
  readonly stretch?: 'whole' | 'sing';
  /** What stands at the notes; their names without it. */
  readonly labels?: NoteLabels;
  /** The line that is sung, and how many octaves from where it is written. */
  readonly sung?: SungLine;
  /** What is told of notes in ink, as at the splitting table. */
  readonly ink?: RibbonInk;
  /** Only the first note of each line is shown, as before a singing step is revealed. */
  readonly isVeiled?: boolean;
  readonly place?: PlaceSource;
  readonly onNote?: (note: NoteId, startTicks: number) => void;
  /** What stands at the left edge for a line: its eye, as a rule a button. */
  readonly tag: (line: Line) => ReactNode;
  readonly label: string;
}

/** An excerpt as cloth: time across, pitch up, each line one woven ribbon. */
export function RibbonSheet(props: RibbonSheetProps) {
  const { place, onNote, tag, label } = props;
  const frame = useRef<HTMLDivElement>(null);
  const sheet = useSheet(props, useWidth(frame));
  const walk = useNoteWalk(sheet, onNote);
  return (
    <div ref={frame} className={styles.frame} data-ribbons="">
      {sheet === null ? null : (
        <>
          <svg
            width={sheet.widthPixels}
            height={sheet.heightPixels}
            viewBox={`0 0 ${sheet.widthPixels} ${sheet.heightPixels}`}
            role="group"
            aria-label={label}
            className={styles.sheet}
            onKeyDown={walk.onKeyDown}
          >
            {sheet.rows.map((row) => (
              <RibbonRow
                key={row.row.startTicks}
                row={row}
                lifted={props.lifted ?? null}
                isVeiled={props.isVeiled ?? false}
                ink={props.ink ?? null}
                walk={walk}
              />
            ))}
            {place === undefined ? null : <PlaceLine sheet={sheet} place={place} />}
          </svg>
          {sheet.rows.map((row, index) =>
            row.tags.map(({ line, y }) => (
              <div key={`${row.row.startTicks} ${line.id}`} className={styles.tag} style={{ top: row.topPixels + y }}>
                {isFirstRowOf(sheet, index, line) ? tag(line) : <span className={styles.letter}>{line.letter}</span>}
              </div>
            )),
          )}
        </>
      )}
    </div>
  );
}

/** The sheet for a width; null until that is known, or where the excerpt's bars are gone. */
function useSheet(props: RibbonSheetProps, width: number | null): Sheet | null {
  const { score, split, excerpt, strengthOf, shown, stretch = 'whole', labels, sung } = props;
  return useMemo(() => {
    const range = ticksOfExcerpt(score, excerpt);
    if (range === null || width === null) return null;
    const strands = strandsOf(score, split, range, strengthOf).filter((strand) => shown?.has(strand.line.id) ?? true);
    return sheetOf(score, range, sungStrands(strands, sung), { widthPixels: width, stretch }, labels);
  }, [score, split, excerpt, strengthOf, shown, stretch, labels, sung, width]);
}

/** Whether a line begins in a row; its full tag stands there, its letter alone in the rows after. */
const isFirstRowOf = ({ rows }: Sheet, index: number, { id }: Line): boolean =>
  rows.findIndex(({ tags }) => tags.some(({ line }) => line.id === id)) === index;

interface PlaceLineProps {
  readonly sheet: Sheet;
  readonly place: PlaceSource;
}

/** The playing position; moved frame by frame without rendering. */
function PlaceLine({ sheet, place }: PlaceLineProps) {
  const group = useRef<SVGGElement>(null);
  useEffect(
    () =>
      place.subscribe((ticks) => {
        const row = rowAt(sheet, ticks);
        group.current?.setAttribute('visibility', row === null ? 'hidden' : 'visible');
        if (row !== null)
          group.current?.setAttribute('transform', `translate(${row.xOfTicks(ticks)} ${row.topPixels})`);
      }),
    [sheet, place],
  );
  return (
    <g ref={group} visibility="hidden" className={styles.place} data-place="">
      <path d={`M0 20V${(sheet.rows[0]?.heightPixels ?? 0) - 6}`} />
      <path d="M-6 16H6L0 25Z" className={styles.placeHead} />
    </g>
  );
}
