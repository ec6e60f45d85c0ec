import { ticksPerQuarter, type PieceProblem } from './piece.ts';

/** One token of a row and the stretch of its bar that it stands for. */
export interface Cell {
  readonly text: string;
  readonly onsetTicks: number;
  readonly lengthTicks: number;
  readonly lineNumber: number;
  readonly column: number;
}

/** A row read beat by beat. */
export interface Row {
  readonly name: string;
  readonly lineNumber: number;
  readonly beatCount: number;
  readonly cells: readonly Cell[];
}

/** The row's beats, each divided evenly among its tokens; null where a beat cannot be divided, with the problem told. */
export function readRow(text: string, lineNumber: number, beatTicks: number, problems: PieceProblem[]): Row | null {
  const bar = text.indexOf('|');
  const cells: Cell[] = [];
  let column = bar + 1;
  const beats = text
    .slice(bar + 1)
    .replace(/\|\s*$/, '')
    .split('|');
  for (const [beatIndex, beat] of beats.entries()) {
    const tokens = [...beat.matchAll(/\S+/g)];
    const lengthTicks = beatTicks / tokens.length;
    if (!Number.isInteger(lengthTicks)) {
      const detail = `beat ${beatIndex + 1} holds ${tokens.length} tokens; a beat is divided into 1 to ${ticksPerQuarter} equal parts`;
      problems.push({ lineNumber, column: column + 1, detail });
      return null;
    }
    for (const [index, token] of tokens.entries())
      cells.push({
        text: token[0],
        onsetTicks: beatIndex * beatTicks + index * lengthTicks,
        lengthTicks,
        lineNumber,
        column: column + token.index + 1,
      });
    column += beat.length + 1;
  }
  return { name: text.slice(0, bar).trim(), lineNumber, beatCount: beats.length, cells };
}
