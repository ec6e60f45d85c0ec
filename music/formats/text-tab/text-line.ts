/** One line of a text, its signs made plain: dashes are `-`, bars are `|`, tabulators are spaces. */
export interface TextLine {
  /** From 1. */
  readonly lineNumber: number;
  readonly text: string;
  /** The column in the file of each sign, from 1; null where nothing moved. */
  readonly columns: readonly number[] | null;
  /** Which signs were a long dash, for which programs put two short ones. */
  readonly longDashes: readonly number[];
}

/** The column in the file, from 1, of a sign of a line. */
export const columnAt = ({ columns }: TextLine, index: number): number =>
  columns === null ? index + 1 : (columns[index] ?? (columns.at(-1) ?? 0) + 1);

/** The line with two dashes for each long one. */
export function withWideDashes(line: TextLine): TextLine {
  const columns: number[] = [];
  let text = '';
  for (let at = 0; at < line.text.length; at += 1) {
    const width = line.longDashes.includes(at) ? 2 : 1;
    for (let count = 0; count < width; count += 1) columns.push(columnAt(line, at));
    text += line.text.charAt(at).repeat(width);
  }
  return { ...line, text, columns, longDashes: [] };
}
