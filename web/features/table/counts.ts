import { isUnsure, type LineId, type NoteId, type Score, type Split } from '../../../music/index.ts';

/** How a split stands: notes on each line, notes on none, proposals that may well be wrong. */
export interface SplitCounts {
  readonly onLine: ReadonlyMap<LineId, number>;
  readonly loose: readonly NoteId[];
  readonly unsure: readonly NoteId[];
}

/** The counts of an arrangement under a split. */
export function countSplit(score: Pick<Score, 'notes'>, split: Split): SplitCounts {
  const active = new Set(split.lines.filter((line) => !line.isRetired).map((line) => line.id));
  const onLine = new Map<LineId, number>();
  const loose: NoteId[] = [];
  const unsure: NoteId[] = [];
  for (const note of score.notes) {
    const mark = split.marks.get(note.id);
    const lines = (mark?.lines ?? []).filter((line) => active.has(line));
    for (const line of lines) onLine.set(line, (onLine.get(line) ?? 0) + 1);
    if (lines.length === 0) loose.push(note.id);
    else if (isUnsure(mark)) unsure.push(note.id);
  }
  return { onLine, loose, unsure };
}
