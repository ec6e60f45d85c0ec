import type { StringLine } from './string-line.ts';
import type { TabLog } from './tab-log.ts';
import type { TextLine } from './text-line.ts';

/** What one string has in one bar. */
export interface Cell {
  readonly line: TextLine;
  /** Where its text begins in the line. */
  readonly from: number;
  readonly text: string;
}

/** One bar of a system as it is drawn. */
export interface DrawnBar {
  /** By string, highest first; null where the line is missing. */
  readonly cells: readonly (Cell | null)[];
  readonly startsRepeat: boolean;
  readonly endsRepeat: boolean;
  /** Whether a double bar ends it. */
  readonly endsDouble: boolean;
  /** Whether a bar line stands before and after it. */
  readonly isOpened: boolean;
  readonly isClosed: boolean;
}

interface Segment extends Cell {
  readonly isOpened: boolean;
  readonly isClosed: boolean;
  readonly endsDouble: boolean;
}

/** The stretches between the bar lines of one string; bar lines with nothing between them are one double bar. */
function segmentsOf({ line, start, body }: StringLine): Segment[] {
  const segments: Segment[] = [];
  const pattern = /[^|]+/g;
  for (let match = pattern.exec(body); match !== null; match = pattern.exec(body)) {
    if (match[0].trim() === '') continue;
    const end = match.index + match[0].length;
    segments.push({
      line,
      from: start + match.index,
      text: match[0],
      isOpened: match.index > 0,
      isClosed: end < body.length,
      endsDouble: /^\|\s*\|/.test(body.slice(end)),
    });
  }
  return segments;
}

/** Where more than half of the strings have a bar line, counted from the left of the body. */
function commonBars(lines: readonly StringLine[]): number[] {
  const counts = new Map<number, number>();
  for (const { body } of lines)
    for (const { index } of body.matchAll(/\|/g)) counts.set(index, (counts.get(index) ?? 0) + 1);
  return [...counts].filter(([, count]) => count * 2 > lines.length).map(([index]) => index);
}

/** A string cut where most others have bar lines; its own stray ones become dashes. */
function cutAtCommonBars(row: StringLine, bars: readonly number[], log: TabLog): Segment[] {
  const wanted = new Set(bars);
  const longest = Math.max(row.body.length, ...bars.map((index) => index + 1));
  const signs = Array.from(row.body.padEnd(longest, '-'), (sign, index) => {
    if (wanted.has(index)) return '|';
    return sign === '|' ? '-' : sign;
  });
  const body = signs.join('');
  const at = Array.from(body).findIndex((sign, index) => sign !== row.body.charAt(index));
  if (at >= 0)
    log.add(
      'value-repaired',
      'warning',
      'This string has other bar lines than most; theirs were taken.',
      row.line,
      row.start + at,
    );
  return segmentsOf({ ...row, body });
}

function rowsOfSegments(lines: readonly (StringLine | null)[], log: TabLog): (Segment[] | null)[] {
  const rows = lines.map((line) => (line === null ? null : segmentsOf(line)));
  const counts = new Set(rows.flatMap((row) => (row === null ? [] : [row.length])));
  if (counts.size <= 1) return rows;
  const present = lines.filter((line) => line !== null);
  const bars = commonBars(present);
  return lines.map((line) => (line === null ? null : cutAtCommonBars(line, bars, log)));
}

const forward = /^(?:[:*]|[oO](?=-))/;
const backward = /(?:[:*]|(?<=-)[oO])$/;

/** Whether enough strings have repeat dots at that end: two, or all where there are fewer; colons never mean anything else. */
function hasDots(cells: readonly (Cell | null)[], pattern: RegExp): boolean {
  const found = cells.filter((cell) => cell !== null && pattern.test(cell.text.trim()));
  return found.length >= 2 || found.some((cell) => pattern.exec(cell?.text.trim() ?? '')?.[0] === ':');
}

/** The cell with its repeat dots made dashes. */
function withoutDots(cell: Cell, startsRepeat: boolean, endsRepeat: boolean): Cell {
  let { text } = cell;
  if (startsRepeat) text = text.replace(forward, '-');
  if (endsRepeat) text = text.trimEnd().replace(backward, '-');
  return { ...cell, text };
}

function evened(cells: readonly (Cell | null)[], log: TabLog): (Cell | null)[] {
  const width = Math.max(...cells.map((cell) => cell?.text.length ?? 0));
  const short = cells.find((cell) => cell !== null && cell.text.length < width) ?? null;
  if (short !== null) {
    const missing = width - short.text.length;
    const detail = `This string is ${missing} ${missing === 1 ? 'column' : 'columns'} shorter than others of its bar; it was filled up at the bar’s end.`;
    log.add('value-repaired', 'warning', detail, short.line, short.from + short.text.length);
  }
  return cells.map((cell) => (cell === null ? null : { ...cell, text: cell.text.padEnd(width, '-') }));
}

function drawnBar(segments: readonly (Segment | null)[], log: TabLog): DrawnBar {
  const present = segments.filter((segment) => segment !== null);
  const startsRepeat = hasDots(segments, forward);
  const endsRepeat = hasDots(segments, backward);
  const cells = segments.map((segment) => (segment === null ? null : withoutDots(segment, startsRepeat, endsRepeat)));
  return {
    cells: evened(cells, log),
    startsRepeat,
    endsRepeat,
    endsDouble: present.some((segment) => segment.endsDouble),
    isOpened: present.some((segment) => segment.isOpened),
    isClosed: present.some((segment) => segment.isClosed),
  };
}

/** The bars of a system, string by string; strings of other lengths or with other bar lines than the rest are repaired and reported. */
export function barsOfSystem(lines: readonly (StringLine | null)[], log: TabLog): DrawnBar[] {
  const rows = rowsOfSegments(lines, log);
  const count = Math.max(0, ...rows.map((row) => row?.length ?? 0));
  return Array.from({ length: count }, (_, index) =>
    drawnBar(
      rows.map((row) => row?.[index] ?? null),
      log,
    ),
  );
}
