import type { PieceBar, PieceDynamic, PieceProblem, PlannedChord } from './piece.ts';
import type { Cell } from './rows.ts';

type Level = Extract<PieceDynamic, { kind: 'level' }>['level'];

const levels: readonly string[] = ['ppp', 'pp', 'p', 'mp', 'mf', 'f', 'ff', 'fff'] satisfies Level[];
const chordPattern = /^[A-G][#b]?(m|maj)?(6|7|9|11)?(sus[24]?|add9|dim|b5)*(\/[A-G][#b]?)?$/;

const isSilent = (text: string): boolean => text === '.' || text === '-';

/** The chords that a `chords` row names. */
export function readChordCells(cells: readonly Cell[], bar: PieceBar, problems: PieceProblem[]): PlannedChord[] {
  return cells.flatMap((cell) => {
    if (isSilent(cell.text)) return [];
    if (!chordPattern.test(cell.text))
      problems.push({ lineNumber: cell.lineNumber, column: cell.column, detail: `"${cell.text}" is no chord name` });
    return [{ name: cell.text, onsetTicks: bar.onsetTicks + cell.onsetTicks }];
  });
}

/** What `level` rows have told so far; a hairpin is open until the next sign. */
export interface LevelReading {
  readonly dynamics: PieceDynamic[];
  open: { readonly onsetTicks: number; readonly direction: 'louder' | 'softer' } | null;
}

function closeHairpin(reading: LevelReading, endTicks: number): void {
  if (reading.open !== null) reading.dynamics.push({ kind: 'hairpin', ...reading.open, endTicks });
  reading.open = null;
}

/** Reads one bar's `level` row: levels, hairpins (`<` and `>`) and the end of one (`!`). */
export function readLevelCells(
  reading: LevelReading,
  cells: readonly Cell[],
  bar: PieceBar,
  problems: PieceProblem[],
): void {
  for (const cell of cells) {
    if (isSilent(cell.text)) continue;
    const onsetTicks = bar.onsetTicks + cell.onsetTicks;
    closeHairpin(reading, onsetTicks);
    if (cell.text === '<' || cell.text === '>')
      reading.open = { onsetTicks, direction: cell.text === '<' ? 'louder' : 'softer' };
    else if (levels.includes(cell.text))
      reading.dynamics.push({ kind: 'level', onsetTicks, level: cell.text as Level });
    else if (cell.text !== '!')
      problems.push({ lineNumber: cell.lineNumber, column: cell.column, detail: `"${cell.text}" is no dynamic sign` });
  }
}
