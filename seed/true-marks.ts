import { lineId, type LineId, type NoteId, type Score, type SoundingNote } from '../music/index.ts';
import { ticksPerQuarter, type Piece, type PieceNote } from './form/piece.ts';

/** The true split of a score: which lines each of its notes is on. */
export interface TrueMarks {
  readonly marks: ReadonlyMap<NoteId, readonly LineId[]>;
  /** Notes of the score that the piece does not know. */
  readonly unknown: readonly NoteId[];
  /** Notes of the piece that the score does not have. */
  readonly missing: readonly PieceNote[];
}

type LineNamer = (letter: string) => LineId;

/** One pluck or tap, wherever it is told: its onset in ticks of the piece, its pitch, its string. */
function keyOfScoreNote(note: SoundingNote, score: Pick<Score, 'ticksPerQuarter'>): string {
  const onsetTicks = (note.onsetTicks * ticksPerQuarter) / score.ticksPerQuarter;
  const sound = note.sound.kind === 'pitched' ? String(note.sound.soundingMidi) : 'tap';
  return `${onsetTicks} ${sound} ${note.fingerboard?.string ?? '?'}`;
}

const keyOfPieceNote = (note: PieceNote): string =>
  `${note.onsetTicks} ${note.sound.kind === 'pitched' ? note.sound.midi : 'tap'} ${note.string}`;

function rowsOf(piece: Piece): Map<string, PieceNote[]> {
  const rows = new Map<string, PieceNote[]>();
  for (const note of piece.notes) {
    const key = keyOfPieceNote(note);
    rows.set(key, [...(rows.get(key) ?? []), note]);
  }
  return rows;
}

/** The lines that the piece's own rows give to each note of a score of the same music. */
export function trueMarks(piece: Piece, score: Score, lineOf: LineNamer = lineId): TrueMarks {
  const rows = rowsOf(piece);
  const marks = new Map<NoteId, readonly LineId[]>();
  const unknown: NoteId[] = [];
  for (const note of score.notes) {
    const key = keyOfScoreNote(note, score);
    const row = rows.get(key);
    if (row === undefined) unknown.push(note.id);
    else marks.set(note.id, row.map(({ letter }) => lineOf(letter)).sort());
    rows.delete(key);
  }
  return { marks, unknown, missing: [...rows.values()].flat() };
}
