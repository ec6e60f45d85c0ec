import type { Issue, IssuePlace } from '../music/index.ts';

function placeText(where: IssuePlace): string {
  if (where.kind === 'file') return '';
  if (where.kind === 'text') return `line ${where.lineNumber}, column ${where.column}: `;
  const { part, barOrdinal, barLabel, beat } = where;
  const printed = barLabel === String(barOrdinal) ? '' : `, printed ${barLabel === '' ? 'without a number' : barLabel}`;
  const inBeats = Number.isInteger(beat) ? String(beat) : beat.toFixed(2);
  return `${part === '' ? '' : `${part}, `}bar #${barOrdinal}${printed}, beat ${inBeats}: `;
}

/** An issue as a sentence with its place before it. */
export const issueText = ({ severity, where, detail }: Issue): string => `${severity}: ${placeText(where)}${detail}`;

/** `1 bar`, `2 bars`. */
export const counted = (count: number, one: string, many = `${one}s`): string => `${count} ${count === 1 ? one : many}`;

/** `a`, `a and b`, `a, b and c`; or with `or`. */
export function listed(words: readonly string[], between: 'and' | 'or' = 'and'): string {
  const last = words.at(-1) ?? '';
  return words.length < 2 ? last : `${words.slice(0, -1).join(', ')} ${between} ${last}`;
}

/** A list as JSON with one row a line. */
export const jsonRows = (rows: readonly unknown[]): string =>
  rows.length === 0 ? '[]\n' : `[\n${rows.map((row) => JSON.stringify(row)).join(',\n')}\n]\n`;

/** Rows of words as columns, the first row as a head; all but the last column as wide as their widest word. */
export function table(rows: readonly (readonly string[])[]): string {
  const widths = (rows[0] ?? []).map((_, column) => Math.max(...rows.map((row) => (row[column] ?? '').length)));
  const line = (row: readonly string[]): string =>
    row.map((word, column) => (column === row.length - 1 ? word : word.padEnd(widths[column] ?? 0))).join('  ');
  return rows.map((row) => `${line(row).trimEnd()}\n`).join('');
}
