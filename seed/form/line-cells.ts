import { midiOf } from '../../music/index.ts';
import { pitchOfText } from './pitch-text.ts';
import type { PieceBar, PieceLine, PieceNote, PieceProblem, PieceSound } from './piece.ts';
import type { Cell } from './rows.ts';

type Growing = { -readonly [Field in keyof PieceNote]: PieceNote[Field] };

/** The notes of one line while its rows are read; notes still sounding can be held on. */
export interface LineReading {
  readonly line: PieceLine;
  readonly notes: Growing[];
  /** The notes that a `-` would hold on. */
  held: Growing[];
}

interface Strings {
  readonly tuning: readonly number[];
  readonly capoFret: number;
}

const headPattern = /^([^/]+)\/([1-9])(~?)$/;

/** The fret that gives a pitch on a string; null where the fingerboard has no such place. */
function fretOf(midi: number, string: number, strings: Strings): number | null {
  const open = strings.tuning[string - 1];
  if (open === undefined) return null;
  const fret = midi - open - strings.capoFret;
  return fret >= 0 && fret <= 19 ? fret : null;
}

function soundOf(text: string): PieceSound | null {
  if (text === 'x') return { kind: 'tap' };
  const pitch = pitchOfText(text);
  return pitch === null ? null : { kind: 'pitched', pitch, midi: midiOf(pitch) };
}

function headOf(text: string, cell: Cell, reading: LineReading, bar: PieceBar, strings: Strings): Growing | string {
  const match = headPattern.exec(text);
  const sound = soundOf(match?.[1] ?? '');
  if (match === null || sound === null)
    return `"${text}" is none of: a pitch with its string (F#4/2), x with its string (x/5), - and .`;
  const string = Number(match[2]);
  const fret = sound.kind === 'tap' ? 0 : fretOf(sound.midi, string, strings);
  if (fret === null) return `${match[1]} cannot be played on string ${string}`;
  if ((sound.kind === 'tap') !== (reading.line.role === 'percussion'))
    return `"${text}" does not belong on a line whose role is ${reading.line.role}`;
  return {
    letter: reading.line.letter,
    barOrdinal: bar.ordinal,
    onsetTicks: bar.onsetTicks + cell.onsetTicks,
    lengthTicks: cell.lengthTicks,
    sound,
    string,
    fret,
    ringsOn: match[3] === '~',
    lineNumber: cell.lineNumber,
    column: cell.column,
  };
}

function holdOn(reading: LineReading, cell: Cell, problems: PieceProblem[]): void {
  if (reading.held.length === 0)
    problems.push({
      lineNumber: cell.lineNumber,
      column: cell.column,
      detail: 'there is no note for this - to hold on',
    });
  for (const note of reading.held) note.lengthTicks += cell.lengthTicks;
}

function strike(reading: LineReading, cell: Cell, bar: PieceBar, strings: Strings, problems: PieceProblem[]): void {
  reading.held = [];
  for (const text of cell.text.split('+')) {
    const head = headOf(text, cell, reading, bar, strings);
    if (typeof head === 'string') problems.push({ lineNumber: cell.lineNumber, column: cell.column, detail: head });
    else reading.held.push(head);
  }
  reading.notes.push(...reading.held);
}

/** Reads one bar of one line: strikes, holds and rests. */
export function readLineCells(
  reading: LineReading,
  cells: readonly Cell[],
  bar: PieceBar,
  strings: Strings,
  problems: PieceProblem[],
): void {
  for (const cell of cells) {
    if (cell.text === '.') reading.held = [];
    else if (cell.text === '-') holdOn(reading, cell, problems);
    else strike(reading, cell, bar, strings, problems);
  }
}
