import type { NoteId } from '../basis/ids.ts';
import { ok, type Result } from '../basis/result.ts';
import { applyEffect, type OperationKind, type OperationRefusal, type SplitEffect, type Subject } from './effect.ts';
import { acceptProposalKind } from './kinds/accept-proposal.ts';
import { changeLineKind, reorderLineKind } from './kinds/line-face.ts';
import { makeLineKind, retireLineKind, reviveLineKind } from './kinds/line-life.ts';
import { markNotesKind } from './kinds/mark-notes.ts';
import type { Operation, OperationOf } from './operation.ts';
import type { Split } from './split.ts';

/** One entry for each kind of operation; a kind without an entry does not compile. */
export const operationKinds: { readonly [Kind in Operation['kind']]: OperationKind<OperationOf<Kind>> } = {
  markNotes: markNotesKind,
  acceptProposal: acceptProposalKind,
  makeLine: makeLineKind,
  changeLine: changeLineKind,
  reorderLine: reorderLineKind,
  retireLine: retireLineKind,
  reviveLine: reviveLineKind,
};

/** The registry's type ties each kind to its own entry, which the compiler cannot follow through an index. */
const kindOf = (operation: Operation): OperationKind<Operation> =>
  operationKinds[operation.kind] as unknown as OperationKind<Operation>;

/** All that the operation would write at this revision. **Errors** `operation-unknown-line`, `already-there`. */
export const effectOf = (split: Split, operation: Operation, revision: number): Result<SplitEffect, OperationRefusal> =>
  kindOf(operation).effect(split, operation, revision);

/** The split after the operation, at `revision`; the split given is untouched and shares what did not change. **Errors** `operation-unknown-line`, `already-there`. */
export function applyOperation(split: Split, operation: Operation, revision: number): Result<Split, OperationRefusal> {
  const effect = effectOf(split, operation, revision);
  return effect.ok ? ok(applyEffect(split, effect.value, revision)) : effect;
}

/** The operation that restores what `operation` overwrites in `split`; a line that it makes is retired instead, for lines are never unmade. */
export const invertOperation = (split: Split, operation: Operation): Operation =>
  kindOf(operation).invert(split, operation);

/** What the operation writes when it meets `split`. */
export const subjectsOf = (split: Split, operation: Operation): readonly Subject[] =>
  kindOf(operation).subjects(split, operation);

/** The operation held to the subjects that are owned; null where nothing is left of it. */
export const narrowOperation = (operation: Operation, owns: (subject: Subject) => boolean): Operation | null =>
  kindOf(operation).narrow(operation, owns);

/** The notes whose marks the operation tells, whether or not they end up written; enough to load for judging it. */
export const notesOfOperation = (operation: Operation): readonly NoteId[] =>
  'changes' in operation ? operation.changes.map(({ note }) => note) : [];
