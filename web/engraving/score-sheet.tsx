import { useMemo } from 'react';
import type { Excerpt, LineId, NoteId, Score, Split } from '../../music/index.ts';
import { plainLook, type SheetLook } from './look.ts';
import type { Picking, PlaceSource, SheetHandlers } from './sheet.ts';
import { barsOfExcerpt, notesOutside } from './sheet-place.ts';
import { sheetSource } from './sheet-source.ts';
import { useSheet } from './use-sheet.ts';

interface ScoreSheetProps {
  /** Normalised MusicXML, with our ids in it. */
  readonly musicXml: string;
  /** The arrangement that was read from it. */
  readonly score: Score;
  readonly split: Split;
  readonly view: 'stacked' | 'threaded';
  readonly excerpt?: Excerpt | null;
  /** The lines that stand out; none for all alike. */
  readonly lifted?: ReadonlySet<LineId>;
  /** How each line is heard; plainly without it. */
  readonly tones?: SheetLook['tones'];
  readonly selected?: ReadonlySet<NoteId>;
  readonly place?: PlaceSource | null;
  readonly onNote?: (note: NoteId, picking: Picking) => void;
  readonly onEye?: SheetHandlers['onEye'];
}

const nothing: ReadonlySet<never> = new Set<never>();
const plainly: SheetLook['tones'] = new Map();

/** The score as written, its heads in the colours of their lines, with or without threads. */
export function ScoreSheet(props: ScoreSheetProps) {
  const {
    musicXml,
    score,
    split,
    view,
    excerpt = null,
    lifted = nothing,
    tones = plainly,
    selected = nothing,
    place = null,
    onNote,
    onEye,
  } = props;
  const source = useMemo(() => sheetSource(musicXml, score), [musicXml, score]);
  const shown = useMemo(() => barsOfExcerpt(score, excerpt) ?? {}, [score, excerpt]);
  const outside = useMemo(() => notesOutside(score, excerpt), [score, excerpt]);
  const look = useMemo(
    () => ({ ...plainLook(split), view, lifted, tones, selected, outside }),
    [split, view, lifted, tones, selected, outside],
  );
  const handlers = useMemo<SheetHandlers>(
    () => ({ ...(onNote === undefined ? {} : { onNote }), ...(onEye === undefined ? {} : { onEye }) }),
    [onNote, onEye],
  );
  const { host } = useSheet({ source, shown, look, place, handlers });
  return <div ref={host} />;
}
