import type { LineId, NoteId } from '../../basis/ids.ts';
import { ok, type Result } from '../../basis/result.ts';
import {
  isRetiredIn,
  lineOf,
  noteMarkOf,
  unknownLine,
  type OperationKind,
  type OperationRefusal,
  type SplitEffect,
  type Subject,
} from '../effect.ts';
import { markNotesSchema, type NoteChange, type OperationOf } from '../operation.ts';
import type { Line, Mark, Split } from '../split.ts';

type MarkNotes = OperationOf<'markNotes'>;

/** The lines that the changes put notes on, each once. */
export const markedLines = (changes: readonly NoteChange[]): readonly LineId[] => [
  ...new Set(changes.flatMap((change) => change.after.lines)),
];

/** The first line named that the split never had. */
export const firstUnknownLine = (split: Pick<Split, 'lines'>, ids: readonly LineId[]): LineId | undefined => {
  const known = new Set(split.lines.map((line) => line.id));
  return ids.find((id) => !known.has(id));
};

/** The marks that the changes write: each note's set of lines sorted and without doubles. */
export const writtenMarks = (changes: readonly NoteChange[], revision: number): SplitEffect['marks'] =>
  changes.map(({ note, after }): readonly [NoteId, Mark] => [
    note,
    { ...after, lines: [...new Set(after.lines)].sort(), revision },
  ]);

/** The changes that put the present marks of the same notes back. */
export const restoringChanges = (split: Pick<Split, 'marks'>, changes: readonly NoteChange[]): NoteChange[] =>
  changes.map(({ note, after }) => ({ note, before: after, after: noteMarkOf(split, note) }));

/** The subjects of changes: each note, and the life of each line that gets one, for nobody may put it away unseen. */
export const changeSubjects = (changes: readonly NoteChange[]): Subject[] => [
  ...changes.map(({ note }): Subject => `note:${note}`),
  ...markedLines(changes).map((id): Subject => `life:${id}`),
];

function effect(split: Split, operation: MarkNotes, revision: number): Result<SplitEffect, OperationRefusal> {
  const retire = operation.retire ?? [];
  const marked = markedLines(operation.changes);
  const unknown = firstUnknownLine(split, [...marked, ...retire]);
  if (unknown !== undefined) return unknownLine(unknown);
  const lines = [...new Set([...marked, ...retire])].flatMap((id): readonly Line[] => {
    const line = lineOf(split, id);
    const isRetired = retire.includes(id);
    return line === undefined || line.isRetired === isRetired ? [] : [{ ...line, isRetired }];
  });
  return ok({ lines, marks: writtenMarks(operation.changes, revision) });
}

function invert(split: Split, operation: MarkNotes): MarkNotes {
  const changes = restoringChanges(split, operation.changes);
  const touched = new Set([...markedLines(operation.changes), ...markedLines(changes)]);
  const retire = [...touched].filter((id) => isRetiredIn(split, id));
  return retire.length === 0 ? { kind: 'markNotes', changes } : { kind: 'markNotes', changes, retire };
}

function narrow(operation: MarkNotes, owns: (subject: Subject) => boolean): MarkNotes | null {
  const changes = operation.changes.filter(({ note }) => owns(`note:${note}`));
  const retire = (operation.retire ?? []).filter((id) => owns(`life:${id}`));
  if (changes.length === 0) return null;
  return retire.length === 0 ? { kind: 'markNotes', changes } : { kind: 'markNotes', changes, retire };
}

/** Notes put on lines; a note's lines are one set, written whole, and a mark for a retired line brings it back. */
export const markNotesKind: OperationKind<MarkNotes> = {
  schema: markNotesSchema,
  effect,
  invert,
  subjects: (_split, { changes, retire = [] }) => [
    ...changeSubjects(changes),
    ...retire.map((id): Subject => `life:${id}`),
  ],
  narrow,
};
