import {
  linesOfNote,
  markNotes,
  type LineId,
  type NoteChange,
  type NoteId,
  type Operation,
  type Score,
  type Split,
} from '../../../music/index.ts';

/** The notes that a deed is done with: those that are selected, else the one under the cursor. */
export function notesAtHand({
  selected,
  cursor,
}: {
  readonly selected: ReadonlySet<NoteId>;
  readonly cursor: NoteId | null;
}): readonly NoteId[] {
  if (selected.size > 0) return [...selected];
  return cursor === null ? [] : [cursor];
}

/** Two notes and what stands between them on the first one's lines. */
export function notesBetween(score: Score, split: Split, from: NoteId, to: NoteId): readonly NoteId[] {
  const lines = linesOfNote(split, from);
  const [a, b] = [from, to].map((id) => score.notes.findIndex((note) => note.id === id));
  const stretch = score.notes.slice(Math.min(a ?? 0, b ?? 0), Math.max(a ?? 0, b ?? 0) + 1);
  const sameLine = stretch.filter((note) => linesOfNote(split, note.id).some((line) => lines.includes(line)));
  return [from, to, ...sameLine.map((note) => note.id)];
}

const changesOf = (operation: Operation | null): readonly NoteChange[] =>
  operation?.kind === 'markNotes' ? operation.changes : [];

const together = (changes: readonly NoteChange[]): Operation | null =>
  changes.length === 0 ? null : { kind: 'markNotes', changes: [...changes] };

/** A person's mark that puts each note on a line as well, or takes it off again. */
export const markedAsWell = (split: Split, notes: readonly NoteId[], line: LineId): Operation | null =>
  together(
    notes.flatMap((note) => {
      const lines = linesOfNote(split, note);
      const next = lines.includes(line) ? lines.filter((other) => other !== line) : [...lines, line].slice(-2);
      return changesOf(markNotes(split, [note], next));
    }),
  );

/** A person's mark that says of each note that it is where it belongs; null where nobody need say so. */
export const markedAsRight = (split: Split, notes: readonly NoteId[]): Operation | null =>
  together(
    notes
      .filter((note) => linesOfNote(split, note).length > 0)
      .flatMap((note) => changesOf(markNotes(split, [note], linesOfNote(split, note)))),
  );

/** The split as it will be once a stroke has ended. */
export function splitWithStroke(split: Split, stroked: ReadonlySet<NoteId>, line: LineId): Split {
  if (stroked.size === 0) return split;
  const marks = new Map(split.marks);
  for (const note of stroked)
    marks.set(note, { lines: [line], from: 'person', confidence: null, revision: split.revision });
  return { ...split, marks };
}
