import {
  isUnsure,
  linesOfNote,
  type Dye,
  type Line,
  type LineId,
  type NoteId,
  type SoundingNote,
  type Split,
} from '../../music/index.ts';
import type { EyeTone } from '../ui/eye-tone.ts';

/** A colleague's deed or place on the sheet. */
export interface PeerMark {
  readonly note: NoteId;
  readonly name: string;
  /** Which of the peer colours, from 1. */
  readonly peer: 1 | 2 | 3;
  /** `fresh`: just marked by them, with a flag; `selected`: where they are. */
  readonly kind: 'fresh' | 'selected';
  readonly words: string;
}

/** Everything that decides how engraved notes look. */
export interface SheetLook {
  readonly split: Split;
  readonly view: 'stacked' | 'threaded';
  /** The lines that stand out while others dim; none for all alike. */
  readonly lifted: ReadonlySet<LineId>;
  /** How each line is heard, shown by its eye; a line that is not named is heard plainly. */
  readonly tones: ReadonlyMap<LineId, EyeTone>;
  readonly selected: ReadonlySet<NoteId>;
  readonly wouldFollow: ReadonlySet<NoteId>;
  /** Notes of the shown bars that lie outside the excerpt; always dim. */
  readonly outside: ReadonlySet<NoteId>;
  /** Whether notes on no line and unsure notes are told, as on the splitting table. */
  readonly tellsState: boolean;
  readonly peers: readonly PeerMark[];
}

/** A look that shows a split plainly. */
export const plainLook = (split: Split): SheetLook => ({
  split,
  view: 'threaded',
  lifted: new Set(),
  tones: new Map(),
  selected: new Set(),
  wouldFollow: new Set(),
  outside: new Set(),
  tellsState: false,
  peers: [],
});

/** How one note is to look. */
export interface Appearance {
  readonly lines: readonly Line[];
  readonly dyes: readonly Dye[];
  readonly isDim: boolean;
  readonly isLoose: boolean;
  readonly isUnsure: boolean;
}

/** The appearance of every note under a look; lines are looked up once. */
export function appearances(look: SheetLook): (note: NoteId) => Appearance {
  const lineOf = new Map(look.split.lines.map((line) => [line.id, line]));
  return (note) => {
    const ids = linesOfNote(look.split, note);
    const lines = ids
      .map((id) => lineOf.get(id))
      .filter((line) => line !== undefined && !line.isRetired) as readonly Line[];
    return {
      lines,
      dyes: lines.map((line) => line.dye),
      isDim: look.outside.has(note) || (look.lifted.size > 0 && !lines.some((line) => look.lifted.has(line.id))),
      isLoose: lines.length === 0 && !look.outside.has(note),
      isUnsure: isUnsure(look.split.marks.get(note)),
    };
  };
}

/** When the last note of each line begins. **Units** ticks. */
export function lastTicksOfLines(
  notes: readonly Pick<SoundingNote, 'id' | 'onsetTicks'>[],
  split: Split,
): ReadonlyMap<LineId, number> {
  const last = new Map<LineId, number>();
  for (const note of notes) for (const line of split.marks.get(note.id)?.lines ?? []) last.set(line, note.onsetTicks);
  return last;
}
