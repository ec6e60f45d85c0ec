import type { LineId, NoteId } from '../basis/ids.ts';
import { refused, type Result } from '../basis/result.ts';
import { withMarks } from './marks.ts';
import type { Operation, NoteMark } from './operation.ts';
import { unmarked, type Line, type Mark, type Split } from './split.ts';

/** Why an operation cannot apply; the codes are the wire's. */
export interface OperationRefusal {
  readonly code: 'operation-unknown-line' | 'operation-unknown-note' | 'operation-differs' | 'already-there';
  readonly detail: string;
}

/** All that an operation writes: whole lines and whole marks. */
export interface SplitEffect {
  readonly lines: readonly Line[];
  readonly marks: readonly (readonly [NoteId, Mark])[];
}

/** One thing that an operation can write and an undo must own: a note's mark, or one property of a line. */
export type Subject = `note:${string}` | `life:${string}` | `order:${string}` | `face:${string}:${string}`;

/** What one kind of operation means. */
export interface OperationKind<Kind extends Operation> {
  readonly schema: { readonly parse: (input: unknown) => Kind };
  readonly effect: (split: Split, operation: Kind, revision: number) => Result<SplitEffect, OperationRefusal>;
  /** What restores `split`, when it is applied after the operation. */
  readonly invert: (split: Split, operation: Kind) => Operation;
  /** What the operation writes when it meets `split`. */
  readonly subjects: (split: Split, operation: Kind) => readonly Subject[];
  /** The operation held to the subjects that are owned; null where nothing is left. */
  readonly narrow: (operation: Kind, owns: (subject: Subject) => boolean) => Operation | null;
}

/** The split after an effect; everything that it does not write is shared. */
export function applyEffect(split: Split, effect: SplitEffect, revision: number): Split {
  const written = new Map(effect.lines.map((line) => [line.id, line]));
  const kept = written.size === 0 ? split.lines : split.lines.map((line) => written.get(line.id) ?? line);
  const known = new Set(split.lines.map((line) => line.id));
  const added = effect.lines.filter((line) => !known.has(line.id));
  const lines = added.length === 0 ? kept : [...kept, ...added];
  return { revision, lines, marks: withMarks(split.marks, effect.marks) };
}

/** The line with this id, retired or not. */
export const lineOf = (split: Pick<Split, 'lines'>, id: LineId): Line | undefined =>
  split.lines.find((line) => line.id === id);

/** The refusal of an operation that names a line which the split never had. */
export const unknownLine = (id: LineId): Result<never, OperationRefusal> =>
  refused({ code: 'operation-unknown-line', detail: `The split has no line ${id}.` });

/** A note's mark as an operation tells it: without its revision, and `unmarked` where there is none. */
export function noteMarkOf(split: Pick<Split, 'marks'>, note: NoteId): NoteMark {
  const { lines, from, confidence } = split.marks.get(note) ?? unmarked;
  return { lines: [...lines], from, confidence };
}

/** Whether the split has this line and it is put away. */
export const isRetiredIn = (split: Pick<Split, 'lines'>, id: LineId): boolean => lineOf(split, id)?.isRetired ?? false;
