import type { LineId, NoteId } from '../basis/ids.ts';
import type { SplitEffect } from './effect.ts';
import type { OrderedOperation } from './operation.ts';
import type { Split } from './split.ts';

/** A mark of one's own that somebody overwrote without having seen it. */
export interface LostMark {
  readonly note: NoteId;
  /** The lines that the lost mark named. */
  readonly lostLines: readonly LineId[];
  /** The lines that the note is on instead. */
  readonly wonLines: readonly LineId[];
  readonly by: string;
  readonly byName: string;
  readonly revision: number;
}

const isSame = (left: readonly LineId[], right: readonly LineId[]): boolean =>
  left.length === right.length && left.every((id, index) => id === right[index]);

/** The marks written at `ownRevisions` that this operation overwrites although its author had not seen them; a mark that says the same is not lost. */
export function lostTo(
  split: Split,
  operation: OrderedOperation,
  effect: SplitEffect,
  ownRevisions: ReadonlySet<number>,
): readonly LostMark[] {
  const { by, byName, revision, baseRevision } = operation;
  return effect.marks.flatMap(([note, won]): readonly LostMark[] => {
    const mark = split.marks.get(note);
    if (mark === undefined || mark.revision <= baseRevision || !ownRevisions.has(mark.revision)) return [];
    if (isSame(mark.lines, won.lines)) return [];
    return [{ note, lostLines: mark.lines, wonLines: won.lines, by, byName, revision }];
  });
}
