import { z } from 'zod';
import { lineId, noteId, operationId } from '../basis/ids.ts';

const idText = z.string().min(1).max(64);
const noteIdSchema = idText.transform(noteId);
const lineIdSchema = idText.transform(lineId);

const faceShape = {
  name: z.string().trim().min(1).max(60),
  role: z.enum(['melody', 'counter', 'middle', 'bass', 'percussion', 'accompaniment']),
  dye: z.enum(['madder', 'weld', 'verdigris', 'indigo', 'walnut', 'logwood']),
  letter: z.string().trim().min(1).max(2),
};

/** The face of a line as it crosses the wire. */
export const lineFaceSchema = z.object(faceShape);

/** A whole line as it crosses the wire. */
export const lineSchema = z.object({
  ...faceShape,
  id: lineIdSchema,
  orderKey: z.string().min(1).max(64),
  isRetired: z.boolean(),
});

/** One note's mark without its revision: the lines it is on, who says so, how sure. */
export const noteMarkSchema = z.object({
  lines: z.array(lineIdSchema).max(2),
  from: z.enum(['person', 'proposal']),
  confidence: z.number().min(0).max(1).nullable(),
});

/** The full effect of an operation on one note. */
export const noteChangeSchema = z.object({
  note: noteIdSchema,
  before: noteMarkSchema,
  after: noteMarkSchema,
});

const changes = z.array(noteChangeSchema).min(1).max(50_000);

/** Every change that a split can undergo, each with its full effect, so that it can be inverted and merged. */
export const operationSchema = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('markNotes'), changes }),
  z.object({ kind: z.literal('acceptProposal'), lines: z.array(lineSchema).max(12), changes }),
  z.object({ kind: z.literal('makeLine'), line: lineSchema }),
  z.object({ kind: z.literal('changeLine'), line: lineIdSchema, before: lineFaceSchema, after: lineFaceSchema }),
  z.object({
    kind: z.literal('reorderLine'),
    line: lineIdSchema,
    before: z.string().min(1).max(64),
    after: z.string().min(1).max(64),
  }),
  z.object({ kind: z.literal('retireLine'), line: lineIdSchema }),
  z.object({ kind: z.literal('reviveLine'), line: lineIdSchema }),
]);

/** An operation on its way to the authority: named by its author, and the revision that the author had seen. */
export const submissionSchema = z.object({
  id: idText.transform(operationId),
  baseRevision: z.int().min(0),
  operation: operationSchema,
});

/** The mark of one note, without its revision. */
export type NoteMark = z.output<typeof noteMarkSchema>;
/** The effect of an operation on one note. */
export type NoteChange = z.output<typeof noteChangeSchema>;
/** One change of a split. */
export type Operation = z.output<typeof operationSchema>;
/** An operation as its author sends it. */
export type Submission = z.output<typeof submissionSchema>;

/** A submission that the authority has put in order. */
export interface OrderedOperation extends Submission {
  readonly revision: number;
  readonly by: string;
}
