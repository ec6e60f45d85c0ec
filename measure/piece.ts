import type { MeterChange, VoiceNote } from '../music/index.ts';

/** A note with the voice that it truly belongs to. */
export interface TrueNote extends VoiceNote {
  readonly voice: string;
}

/** A piece whose voices are known. **Shape** any order of notes; answers are one label per note in the same order. */
export interface Piece {
  readonly id: string;
  readonly ticksPerQuarter: number;
  readonly meters: readonly MeterChange[];
  readonly notes: readonly TrueNote[];
}

/** Pieces of one kind, measured together. */
export interface DataSet {
  readonly name: string;
  readonly pieces: readonly Piece[];
}

/** What an answer says of a note: the name of a line, or nothing. */
export type Label = string | null;

/** The true voice of each note. */
export const truthOf = (piece: Pick<Piece, 'notes'>): readonly string[] => piece.notes.map(({ voice }) => voice);

/** Indices of notes in order of time, then from low to high. */
export const inTime = (notes: readonly VoiceNote[]): readonly number[] =>
  notes
    .map((_, index) => index)
    .sort((a, b) => {
      const [first, second] = [notes[a] as VoiceNote, notes[b] as VoiceNote];
      return first.onsetTicks - second.onsetTicks || first.midi - second.midi || a - b;
    });
