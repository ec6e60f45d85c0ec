import { lineId, noteId } from '../basis/ids.ts';
import type { NoteMark } from './operation.ts';
import type { Line, Mark, Split } from './split.ts';

/** A whole split as plain data. **Shape** marks are pairs of a note's id and its mark with its revision. */
export interface SplitSnapshot {
  readonly revision: number;
  readonly lines: readonly Line[];
  readonly marks: readonly (readonly [string, NoteMark & { readonly revision: number }])[];
}

/** The split as plain data, ready for JSON. */
export const snapshotOf = (split: Split): SplitSnapshot => ({
  revision: split.revision,
  lines: split.lines,
  marks: [...split.marks].map(([note, mark]) => [note, { ...mark, lines: [...mark.lines] }]),
});

/** The split that a snapshot tells. */
export const splitFromSnapshot = (snapshot: SplitSnapshot): Split => ({
  revision: snapshot.revision,
  lines: snapshot.lines.map((line) => ({ ...line, id: lineId(line.id) })),
  marks: new Map(
    snapshot.marks.map(([note, mark]): [ReturnType<typeof noteId>, Mark] => [
      noteId(note),
      { ...mark, lines: mark.lines.map(lineId) },
    ]),
  ),
});
