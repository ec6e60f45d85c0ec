import type { NoteId } from '../basis/ids.ts';
import { isSameSubmission } from './canonical.ts';
import type { OperationRefusal, SplitEffect } from './effect.ts';
import type { OrderedOperation, Submission } from './operation.ts';
import { effectOf, notesOfOperation } from './registry.ts';
import type { Split } from './split.ts';

/** What the one who orders operations answers: written next, written before, or refused. */
export type Verdict =
  | {
      readonly kind: 'accepted';
      readonly revision: number;
      readonly effect: SplitEffect;
      /** The notes whose newer mark, one that the author had not seen, this operation overwrites. */
      readonly overwritten: readonly NoteId[];
    }
  | { readonly kind: 'duplicate'; readonly first: OrderedOperation }
  | { readonly kind: 'refused'; readonly refusal: OperationRefusal };

/** What is needed to judge one submission. */
export interface Case {
  /** The present split; of its marks only those of `notesOfOperation` are looked at. */
  readonly split: Split;
  readonly submission: Submission;
  /** What the same author sent under the same id before and was accepted, if anything. */
  readonly first: OrderedOperation | null;
  readonly hasNote: (note: NoteId) => boolean;
}

const refusal = (code: OperationRefusal['code'], detail: string): Verdict => ({
  kind: 'refused',
  refusal: { code, detail },
});

/** The verdict on a submission; it writes nothing. The same id and body again is a duplicate, the same id with another body is refused. */
export function judge({ split, submission, first, hasNote }: Case): Verdict {
  if (first !== null) {
    if (isSameSubmission(first, submission)) return { kind: 'duplicate', first };
    return refusal('operation-differs', `The operation ${submission.id} was sent before with another body.`);
  }
  const unknownNote = notesOfOperation(submission.operation).find((note) => !hasNote(note));
  if (unknownNote !== undefined) {
    return refusal('operation-unknown-note', `The score has no note ${unknownNote}.`);
  }
  const revision = split.revision + 1;
  const effect = effectOf(split, submission.operation, revision);
  if (!effect.ok) return { kind: 'refused', refusal: effect.refusal };
  const overwritten = effect.value.marks
    .map(([note]) => note)
    .filter((note) => (split.marks.get(note)?.revision ?? 0) > submission.baseRevision);
  return { kind: 'accepted', revision, effect: effect.value, overwritten };
}
