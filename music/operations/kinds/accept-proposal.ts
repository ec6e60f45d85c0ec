import { ok, type Result } from '../../basis/result.ts';
import {
  isRetiredIn,
  lineOf,
  unknownLine,
  type OperationKind,
  type OperationRefusal,
  type SplitEffect,
  type Subject,
} from '../effect.ts';
import { acceptProposalSchema, type NoteChange, type OperationOf } from '../operation.ts';
import type { Line, Split } from '../split.ts';
import { changeSubjects, firstUnknownLine, markedLines, restoringChanges, writtenMarks } from './mark-notes.ts';

type AcceptProposal = OperationOf<'acceptProposal'>;

/** A person's mark is a pin: what a proposal says about that note is passed over. */
const unpinned = (split: Pick<Split, 'marks'>, changes: readonly NoteChange[]): NoteChange[] =>
  changes.filter(({ note }) => split.marks.get(note)?.from !== 'person');

function writtenLines(split: Split, operation: AcceptProposal, changes: readonly NoteChange[]): readonly Line[] {
  const told = operation.lines.flatMap((line): readonly Line[] => {
    const present = lineOf(split, line.id);
    if (present === undefined) return [line];
    return present.isRetired === line.isRetired ? [] : [{ ...present, isRetired: line.isRetired }];
  });
  const isTold = new Set(operation.lines.map((line) => line.id));
  const revived = markedLines(changes).flatMap((id): readonly Line[] => {
    const present = lineOf(split, id);
    return present?.isRetired === true && !isTold.has(id) ? [{ ...present, isRetired: false }] : [];
  });
  return [...told, ...revived];
}

function effect(split: Split, operation: AcceptProposal, revision: number): Result<SplitEffect, OperationRefusal> {
  const changes = unpinned(split, operation.changes);
  const known = { lines: [...split.lines, ...operation.lines] };
  const unknown = firstUnknownLine(known, markedLines(operation.changes));
  if (unknown !== undefined) return unknownLine(unknown);
  return ok({ lines: writtenLines(split, operation, changes), marks: writtenMarks(changes, revision) });
}

function invert(split: Split, operation: AcceptProposal): AcceptProposal {
  const changes = unpinned(split, operation.changes);
  const restored = restoringChanges(split, changes);
  const written = writtenLines(split, operation, changes);
  const told = written.map((line) => ({ ...line, isRetired: lineOf(split, line.id)?.isRetired ?? true }));
  const toldIds = new Set(told.map((line) => line.id));
  const stillRetired = markedLines(restored)
    .filter((id) => !toldIds.has(id) && isRetiredIn(split, id))
    .flatMap((id) => lineOf(split, id) ?? []);
  return { kind: 'acceptProposal', lines: [...told, ...stillRetired], changes: restored };
}

function narrow(operation: AcceptProposal, owns: (subject: Subject) => boolean): AcceptProposal | null {
  const lines = operation.lines.filter(({ id }) => owns(`life:${id}`));
  const changes = operation.changes.filter(({ note }) => owns(`note:${note}`));
  return lines.length === 0 && changes.length === 0 ? null : { kind: 'acceptProposal', lines, changes };
}

/** A proposal taken: its new lines are made, and every note without a person's mark gets the proposed one. */
export const acceptProposalKind: OperationKind<AcceptProposal> = {
  schema: acceptProposalSchema,
  effect,
  invert,
  subjects: (split, { lines, changes }) => [
    ...changeSubjects(unpinned(split, changes)),
    ...lines.map(({ id }): Subject => `life:${id}`),
  ],
  narrow,
};
