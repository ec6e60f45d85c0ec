import type { LineId, NoteId } from '../basis/ids.ts';

/** What a line does in the music. */
export type LineRole = 'melody' | 'counter' | 'middle' | 'bass' | 'percussion' | 'accompaniment';

/** The six dyes; each has a colour and a stitch in the web's tokens. */
export type Dye = 'madder' | 'weld' | 'verdigris' | 'indigo' | 'walnut' | 'logwood';

/** What a line is called and how it is told apart: always a dye (colour and stitch) and a letter together. */
export interface LineFace {
  readonly name: string;
  readonly role: LineRole;
  readonly dye: Dye;
  /** One or two letters. */
  readonly letter: string;
}

/** One horizontal strand of a song. Lines are retired, never deleted. */
export interface Line extends LineFace {
  readonly id: LineId;
  /** A fractional index; lines are listed by it, highest-sounding first. */
  readonly orderKey: string;
  readonly isRetired: boolean;
}

/** The lines that a note is on, who says so, and how sure that is. */
export interface Mark {
  /** None, one or two lines, sorted by id; written whole. */
  readonly lines: readonly LineId[];
  /** `person`: a pin, never overridden by a proposal; `proposal`: suggested and accepted. */
  readonly from: 'person' | 'proposal';
  /** 0 to 1, from the proposal; null for a person's mark. */
  readonly confidence: number | null;
  /** The revision that wrote this mark last. */
  readonly revision: number;
}

/** The live shared document of a song: which notes are on which lines. Replaced, never changed in place. */
export interface Split {
  readonly revision: number;
  readonly lines: readonly Line[];
  readonly marks: ReadonlyMap<NoteId, Mark>;
}

/** What a note without a mark counts as: on no line, and nobody's word. */
export const unmarked: Omit<Mark, 'revision'> = { lines: [], from: 'proposal', confidence: null };

/** A split without lines or marks. */
export const emptySplit: Split = { revision: 0, lines: [], marks: new Map() };

/** The lines that are not retired, in order. */
export const activeLines = (split: Pick<Split, 'lines'>): readonly Line[] =>
  split.lines
    .filter((line) => !line.isRetired)
    .sort((a, b) => (a.orderKey < b.orderKey ? -1 : a.orderKey > b.orderKey ? 1 : 0));

/** The lines that a note is on; empty for a note on no line. */
export const linesOfNote = (split: Pick<Split, 'marks'>, note: NoteId): readonly LineId[] =>
  split.marks.get(note)?.lines ?? [];
