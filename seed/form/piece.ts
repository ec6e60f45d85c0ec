import type { Dye, DynamicMark, Key, LineRole, Meter, Pitch } from '../../music/index.ts';

/** Every length of a piece is counted in this many ticks to the quarter note. */
export const ticksPerQuarter = 24;

/** One line of a piece, as its `line` row declares it. */
export interface PieceLine {
  /** The letter that begins this line's rows. */
  readonly letter: string;
  readonly name: string;
  readonly role: LineRole;
  readonly dye: Dye;
  readonly stems: 'up' | 'down';
}

/** A pitch as it sounds, or a tap with the hand. */
export type PieceSound =
  { readonly kind: 'pitched'; readonly pitch: Pitch; readonly midi: number } | { readonly kind: 'tap' };

/** One pluck or tap of one line; a unison that two lines share is one note in each of them. */
export interface PieceNote {
  readonly letter: string;
  readonly barOrdinal: number;
  /** Ticks from the start of the piece as written. */
  readonly onsetTicks: number;
  readonly lengthTicks: number;
  readonly sound: PieceSound;
  /** 1 is the highest string. */
  readonly string: number;
  readonly fret: number;
  readonly ringsOn: boolean;
  readonly lineNumber: number;
  readonly column: number;
}

/** A chord name of the plan, from its onset to the next one. */
export interface PlannedChord {
  readonly name: string;
  readonly onsetTicks: number;
}

/** A dynamic level or hairpin of a piece. */
export type PieceDynamic = Exclude<DynamicMark, { readonly kind: 'accent' }>;

/** One written bar. */
export interface PieceBar {
  /** From 1, in written order. */
  readonly ordinal: number;
  readonly label: string;
  readonly isPickup: boolean;
  readonly onsetTicks: number;
  readonly lengthTicks: number;
  readonly meter: Meter;
  readonly key: Key;
  readonly rehearsalMark: string | null;
  readonly startsRepeat: boolean;
  readonly endsRepeat: boolean;
  /** The pass on which this bar sounds, or null where it always does. */
  readonly ending: number | null;
  /** **Units** quarter notes a minute from this bar on; null where it stays. */
  readonly quartersPerMinute: number | null;
}

/** A whole piece in our own text form. */
export interface Piece {
  readonly title: string;
  readonly composer: string;
  /** String 1 (highest) first, without capo. **Units** MIDI note numbers. */
  readonly tuning: readonly number[];
  readonly capoFret: number;
  readonly lines: readonly PieceLine[];
  readonly bars: readonly PieceBar[];
  /** Sorted by onset, then by the order of the lines. */
  readonly notes: readonly PieceNote[];
  readonly dynamics: readonly PieceDynamic[];
  readonly chords: readonly PlannedChord[];
}

/** What is wrong with a text and where. Lines and columns count from 1. */
export interface PieceProblem {
  readonly lineNumber: number;
  readonly column: number;
  readonly detail: string;
}
