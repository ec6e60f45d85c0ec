import { z } from 'zod';
import { title, uuid, instant } from './ids.ts';

const composer = z.string().trim().max(120);
export const songDraft = z.object({ title, composer: composer.default('') });
export const songChange = z
  .object({ title, composer, arrangementParts: z.array(z.string().min(1).max(64)).min(1) })
  .partial();

const issuePlace = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('file') }),
  z.object({ kind: z.literal('text'), lineNumber: z.int(), column: z.int() }),
  z.object({ kind: z.literal('music'), part: z.string(), barOrdinal: z.int(), barLabel: z.string(), beat: z.number() }),
]);
/** One finding of an import. */
export const importIssue = z.object({
  code: z.string(),
  where: issuePlace,
  severity: z.enum(['error', 'warning', 'note']),
  detail: z.string(),
});

/** What was read from a score. Bars in lists are ordinals from 1. */
export const scoreFacts = z.object({
  title: z.string(),
  composer: z.string(),
  parts: z.array(
    z.object({
      id: z.string(),
      name: z.string(),
      staves: z.array(z.string()),
      tuning: z.array(z.int()).nullable(),
      capoFret: z.int(),
      soundingShift: z.int(),
      pairedWith: z.string().nullable(),
      soundingNotes: z.int(),
    }),
  ),
  barCount: z.int(),
  heads: z.int(),
  soundingNotes: z.int(),
  plucks: z.int(),
  meters: z.array(z.tuple([z.int(), z.string()])),
  keys: z.array(z.tuple([z.int(), z.int()])),
  quartersPerMinute: z.number().nullable(),
});

/** One version of a song's score. */
export const scoreVersion = z.object({
  id: uuid,
  version: z.int(),
  fileName: z.string(),
  byteCount: z.int(),
  uploadedAt: instant,
  facts: scoreFacts,
  issues: z.array(importIssue),
});

export const songDetail = z.object({
  id: uuid,
  courseId: uuid,
  title,
  composer: z.string(),
  arrangementParts: z.array(z.string()).nullable(),
  score: scoreVersion.nullable(),
  splitRevision: z.int(),
  lineCount: z.int(),
  /** Notes of the arrangement that are on no line; null before a score is there. */
  looseNoteCount: z.int().nullable(),
});
