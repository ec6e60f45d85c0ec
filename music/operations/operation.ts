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

const changesSchema = z.array(noteChangeSchema).max(50_000);
const orderKeySchema = z.string().min(1).max(64);

/** Puts notes on lines. `retire` names lines to put away again; only the undoing of a mark that had brought them back sends it. */
export const markNotesSchema = z.object({
  kind: z.literal('markNotes'),
  changes: changesSchema.min(1),
  retire: z.array(lineIdSchema).max(12).optional(),
});

/** Takes a proposal: makes its lines where they are new, and marks every note that no person has marked. */
export const acceptProposalSchema = z.object({
  kind: z.literal('acceptProposal'),
  lines: z.array(lineSchema).max(12),
  changes: changesSchema,
});

/** Makes a line. */
export const makeLineSchema = z.object({ kind: z.literal('makeLine'), line: lineSchema });

/** Changes what differs between the two faces, and nothing else of the line's face. */
export const changeLineSchema = z.object({
  kind: z.literal('changeLine'),
  line: lineIdSchema,
  before: lineFaceSchema,
  after: lineFaceSchema,
});

/** Moves a line in the list of lines. */
export const reorderLineSchema = z.object({
  kind: z.literal('reorderLine'),
  line: lineIdSchema,
  before: orderKeySchema,
  after: orderKeySchema,
});

/** Puts a line away; its marks stay. */
export const retireLineSchema = z.object({ kind: z.literal('retireLine'), line: lineIdSchema });

/** Brings a line back. */
export const reviveLineSchema = z.object({ kind: z.literal('reviveLine'), line: lineIdSchema });

/** Every change that a split can undergo, each with its full effect, so that it can be inverted and merged. */
export const operationSchema = z.discriminatedUnion('kind', [
  markNotesSchema,
  acceptProposalSchema,
  makeLineSchema,
  changeLineSchema,
  reorderLineSchema,
  retireLineSchema,
  reviveLineSchema,
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
  /** The id of its author. */
  readonly by: string;
  readonly byName: string;
}

/** What makes an operation one of a kind. */
export type OperationOf<Kind extends Operation['kind']> = Extract<Operation, { readonly kind: Kind }>;
