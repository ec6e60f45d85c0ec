import { ok, refused, type Result } from '../../music/index.ts';
import { readBarRow, type BarWords } from './bar-row.ts';
import { beginHeading, finishHeading, readHeadingRow, type Heading } from './heading.ts';
import { readLineCells, type LineReading } from './line-cells.ts';
import { ticksPerQuarter, type Piece, type PieceBar, type PieceProblem, type PlannedChord } from './piece.ts';
import { readChordCells, readLevelCells, type LevelReading } from './plan-cells.ts';
import { readRow, type Row } from './rows.ts';

interface SourceRow {
  readonly text: string;
  readonly lineNumber: number;
}

interface BarBlock {
  readonly head: SourceRow;
  readonly rows: SourceRow[];
}

function rowsOf(text: string): SourceRow[] {
  return text
    .split(/\r?\n/)
    .map((row, index) => ({ text: row.trimEnd(), lineNumber: index + 1 }))
    .filter((row) => row.text !== '' && !row.text.startsWith('#'));
}

function blocksOf(rows: readonly SourceRow[]): { heading: SourceRow[]; bars: BarBlock[] } {
  const heading: SourceRow[] = [];
  const bars: BarBlock[] = [];
  for (const row of rows) {
    if (/^bar\b/.test(row.text)) bars.push({ head: row, rows: [] });
    else (bars.at(-1)?.rows ?? heading).push(row);
  }
  return { heading, bars };
}

function headingOf(rows: readonly SourceRow[], problems: PieceProblem[]): Heading | null {
  const draft = beginHeading();
  for (const row of rows) readHeadingRow(draft, row.text, row.lineNumber, problems);
  return finishHeading(draft, rows.at(-1)?.lineNumber ?? 1, problems);
}

/** Everything that is gathered bar by bar. */
interface Gathering {
  readonly heading: Heading;
  readonly problems: PieceProblem[];
  readonly bars: PieceBar[];
  readonly lines: readonly LineReading[];
  readonly levels: LevelReading;
  readonly chords: PlannedChord[];
}

const beatTicksOf = (bar: Pick<PieceBar, 'meter'>): number => (ticksPerQuarter * 4) / bar.meter.beatUnit;

function beatsOfBar(words: BarWords, rows: readonly Row[], problems: PieceProblem[]): number {
  const whole = words.meter.beats.reduce((sum, beats) => sum + beats, 0);
  const beats = words.isPickup ? Math.max(1, ...rows.map((row) => row.beatCount)) : whole;
  for (const row of rows)
    if (row.beatCount !== beats) {
      const detail = `this row has ${row.beatCount} beats where its bar has ${beats}`;
      problems.push({ lineNumber: row.lineNumber, column: 1, detail });
    }
  return beats;
}

function readRowInto(gathering: Gathering, row: Row, bar: PieceBar): void {
  const { problems, heading } = gathering;
  const reading = gathering.lines.find(({ line }) => line.letter === row.name);
  if (row.name === 'chords') gathering.chords.push(...readChordCells(row.cells, bar, problems));
  else if (row.name === 'level') readLevelCells(gathering.levels, row.cells, bar, problems);
  else if (reading === undefined)
    problems.push({ lineNumber: row.lineNumber, column: 1, detail: `no line has the letter "${row.name}"` });
  else readLineCells(reading, row.cells, bar, heading, problems);
}

function readBlock(gathering: Gathering, block: BarBlock): void {
  const { problems, heading, bars } = gathering;
  const before = bars.at(-1);
  const words = readBarRow(block.head.text, block.head.lineNumber, before ?? heading, problems);
  const beatTicks = beatTicksOf(words);
  const rows = block.rows.flatMap((row) => readRow(row.text, row.lineNumber, beatTicks, problems) ?? []);
  const lengthTicks = beatsOfBar(words, rows, problems) * beatTicks;
  const onsetTicks = before === undefined ? 0 : before.onsetTicks + before.lengthTicks;
  const tempo = before === undefined ? heading.quartersPerMinute : null;
  const quartersPerMinute = words.quartersPerMinute ?? tempo;
  const bar: PieceBar = { ...words, quartersPerMinute, ordinal: bars.length + 1, onsetTicks, lengthTicks };
  bars.push(bar);
  for (const row of rows) readRowInto(gathering, row, bar);
  restSilentLines(gathering, rows);
}

/** A line without a row in this bar rests, so nothing can be held on after it. */
function restSilentLines(gathering: Gathering, rows: readonly Row[]): void {
  for (const reading of gathering.lines) if (!rows.some((row) => row.name === reading.line.letter)) reading.held = [];
}

function pieceOf({ heading, bars, lines, levels, chords }: Gathering): Piece {
  const order = new Map(lines.map(({ line }, index) => [line.letter, index]));
  const rank = (letter: string): number => order.get(letter) ?? 0;
  return {
    title: heading.title,
    composer: heading.composer,
    tuning: heading.tuning,
    capoFret: heading.capoFret,
    lines: heading.lines,
    bars,
    notes: lines
      .flatMap(({ notes }) => notes)
      .sort((a, b) => a.onsetTicks - b.onsetTicks || rank(a.letter) - rank(b.letter)),
    dynamics: [...levels.dynamics].sort((a, b) => a.onsetTicks - b.onsetTicks),
    chords,
  };
}

/** The piece that a text in our own form describes, or everything that is wrong with the text. */
export function readPiece(text: string): Result<Piece, readonly PieceProblem[]> {
  const problems: PieceProblem[] = [];
  const blocks = blocksOf(rowsOf(text));
  const heading = headingOf(blocks.heading, problems);
  if (heading === null) return refused(problems);
  const lines = heading.lines.map((line): LineReading => ({ line, notes: [], held: [] }));
  const gathering: Gathering = { heading, problems, bars: [], lines, levels: { dynamics: [], open: null }, chords: [] };
  for (const block of blocks.bars) readBlock(gathering, block);
  if (blocks.bars.length === 0) problems.push({ lineNumber: 1, column: 1, detail: 'a piece needs at least one bar' });
  return problems.length > 0 ? refused(problems) : ok(pieceOf(gathering));
}
