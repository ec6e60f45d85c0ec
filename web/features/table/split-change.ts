import type { Line, Mark, Split } from '../../../music/index.ts';

const isSameMark = (a: Mark | undefined, b: Mark): boolean =>
  a === b || (a !== undefined && a.from === b.from && a.lines.join() === b.lines.join());

const isSameLine = (a: Line, b: Line | undefined): boolean =>
  a === b || (a.id === b?.id && a.isRetired === b.isRetired && a.role === b.role);

/** Whether two states of a split say the same to a proposal: the same lines, the same notes on them, by the same word. Revisions do not count. */
export function saysTheSame(before: Split, after: Split): boolean {
  if (before === after) return true;
  if (before.marks.size !== after.marks.size || before.lines.length !== after.lines.length) return false;
  if (!before.lines.every((line, index) => isSameLine(line, after.lines[index]))) return false;
  for (const [note, mark] of after.marks) if (!isSameMark(before.marks.get(note), mark)) return false;
  return true;
}
