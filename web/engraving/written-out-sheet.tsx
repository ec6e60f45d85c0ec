import { useMemo } from 'react';
import {
  excerptOfBars,
  type Excerpt,
  type LengthMode,
  type LineId,
  type NoteId,
  type Score,
  type Split,
} from '../../music/index.ts';
import { plainLook, type SheetLook } from './look.ts';
import type { Picking, PlaceSource, SheetHandlers } from './sheet.ts';
import { barsOfExcerpt, notesOutside } from './sheet-place.ts';
import type { SheetSource } from './strip.ts';
import { useSheet } from './use-sheet.ts';
import { writtenSource } from './written-source.ts';

interface WrittenOutSheetProps {
  /** Normalised MusicXML, with our ids in it. */
  readonly musicXml: string;
  /** The arrangement that was read from it. */
  readonly score: Score;
  readonly split: Split;
  readonly excerpt?: Excerpt | null;
  readonly lengths?: LengthMode;
  /** Whether the score as written stands above the lines. */
  readonly withOriginal?: boolean;
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

/** The lines written out, a staff each with rests filled in, under the score as written and aligned with it. */
export function WrittenOutSheet(props: WrittenOutSheetProps) {
  const { musicXml, score, split, excerpt = null, lengths = 'next', withOriginal = true } = props;
  const source = useMemo(() => {
    const whole = excerpt ?? wholeScore(score);
    return whole === null ? null : writtenSource({ musicXml, score, split, excerpt: whole, lengths, withOriginal });
  }, [musicXml, score, split, excerpt, lengths, withOriginal]);
  if (source === null)
    return <p>Nothing to write out: there is no line yet, or these bars are no longer in the score.</p>;
  return <WrittenSheet {...props} source={source} />;
}

const wholeScore = ({ bars, ticksPerQuarter }: Score): Excerpt | null => {
  const first = bars[0];
  const last = bars.at(-1);
  return first === undefined || last === undefined ? null : excerptOfBars({ bars, ticksPerQuarter }, first.id, last.id);
};

function WrittenSheet(props: WrittenOutSheetProps & { readonly source: SheetSource }) {
  const {
    score,
    split,
    excerpt = null,
    lifted = nothing,
    tones = plainly,
    selected = nothing,
    place = null,
    onNote,
    onEye,
    source,
  } = props;
  const shown = useMemo(() => barsOfExcerpt(score, excerpt) ?? {}, [score, excerpt]);
  const outside = useMemo(() => notesOutside(score, excerpt), [score, excerpt]);
  const look = useMemo(
    () => ({ ...plainLook(split), view: 'stacked' as const, lifted, tones, selected, outside }),
    [split, lifted, tones, selected, outside],
  );
  const handlers = useMemo<SheetHandlers>(
    () => ({ ...(onNote === undefined ? {} : { onNote }), ...(onEye === undefined ? {} : { onEye }) }),
    [onNote, onEye],
  );
  const { host } = useSheet({ source, shown, look, place, handlers });
  return <div ref={host} />;
}
