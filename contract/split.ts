import { z } from 'zod';
import { lineSchema, noteMarkSchema, operationSchema, submissionSchema } from '../music/index.ts';
import { uuid } from './ids.ts';

/** An operation on its way to the authority. */
export const submission = submissionSchema;

/** The whole split at one revision, as a joining client gets it. */
export const splitSnapshot = z.object({
  revision: z.int(),
  lines: z.array(lineSchema),
  marks: z.array(z.tuple([z.string(), noteMarkSchema.extend({ revision: z.int() })])),
});

/** A confirmed operation as it is fanned out and kept. */
export const orderedOperation = submissionSchema.extend({ revision: z.int(), by: uuid, byName: z.string() });

/** Confirmed operations in order; where `isAll` is false more follow after the last of them. */
export const operationsSince = z.object({
  revision: z.int(),
  operations: z.array(orderedOperation),
  isAll: z.boolean(),
});
/** The revision after which operations are asked for. */
export const operationsQuery = z.object({ after: z.coerce.number().int().min(0).default(0) });

/** What the proposal would do: an operation to send, with nothing changed yet. */
export const proposalDraft = z.object({ lineCount: z.int().min(1).max(8).optional() });
export const proposal = z.object({
  baseRevision: z.int(),
  operation: operationSchema,
  unsureCount: z.int(),
  changedCount: z.int(),
});
