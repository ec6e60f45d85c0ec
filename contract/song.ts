import { z } from 'zod';
import { mostOctaves } from '../music/index.ts';
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

const soundingChoice = z.object({
  part: z.string().min(1).max(200),
  /** Octaves from written to sounding pitch. */
  octave: z.int().min(-mostOctaves).max(mostOctaves).nullable().default(null),
  /** What the pitches of a part with a capo are. */
  capo: z.enum(['shapes', 'sounding']).nullable().default(null),
});

/** How a person wants what a format leaves open to be read; null where the file itself is to decide. */
export const readingChoice = z.object({
  /** ABC: which tune, by the number that its `X:` says. */
  tune: z.int().min(1).max(1_000_000).nullable().default(null),
  /** MIDI: how time is counted; beat by beat as it fits best where null. */
  grid: z.enum(['straight', 'triplet', 'swing']).nullable().default(null),
  /** How single parts with frets sound; a part that is not named sounds as the file gives to believe. */
  sounding: z
    .array(soundingChoice)
    .max(200)
    .refine((parts) => new Set(parts.map(({ part }) => part)).size === parts.length, 'a part is named twice')
    .default([]),
});

export type ReadingChoice = z.output<typeof readingChoice>;

/** What was chosen for one part with frets. */
export type PartChoice = z.output<typeof soundingChoice>;

const isSamePart = (one: PartChoice, other: PartChoice | undefined): boolean =>
  one.part === other?.part && one.octave === other.octave && one.capo === other.capo;

/** Whether two choices, each with its parts in the order of the score, ask for the same reading. */
export const isSameChoice = (one: ReadingChoice, other: ReadingChoice): boolean =>
  one.tune === other.tune &&
  one.grid === other.grid &&
  one.sounding.length === other.sounding.length &&
  one.sounding.every((part, index) => isSamePart(part, other.sounding[index]));

const evidence = z.enum(['person', 'transposition', 'clef', 'frets', 'assumption']);

const soundingBelief = z.object({
  octave: z.int(),
  octaveBy: evidence,
  capo: z.object({ are: z.enum(['shapes', 'sounding']), by: evidence }).nullable(),
});

/** How a version was read, and what else could be chosen. Bars are ordinals from 1. */
export const scoreReading = z.object({
  format: z.enum(['musicxml', 'midi', 'abc', 'textTab']),
  /** `tune` is always told for ABC. */
  chosen: readingChoice,
  /** The tunes of an ABC file; none for other formats. */
  tunes: z.array(z.object({ number: z.int(), title: z.string() })),
  /** How the time of a MIDI file was counted, stretch by stretch; none for other formats. */
  grid: z.array(
    z.object({
      firstBar: z.int(),
      lastBar: z.int(),
      kind: z.enum(['straight', 'triplet', 'swing', 'mixed']),
    }),
  ),
  /** For each part with frets that is written as notes: its octave, its capo (null without one), and what was believed for them. */
  sounding: z.array(
    soundingBelief.extend({
      part: z.string(),
      /** Where a person chose: what the file alone gives to believe; untold in versions from before this was kept. */
      byFile: soundingBelief.optional(),
    }),
  ),
});

export type ScoreReading = z.output<typeof scoreReading>;

/** One version of a song's score. */
export const scoreVersion = z.object({
  id: uuid,
  version: z.int(),
  fileName: z.string(),
  byteCount: z.int(),
  uploadedAt: instant,
  facts: scoreFacts,
  /** Null for a version that was read before Heddle kept how. */
  reading: scoreReading.nullable(),
  issues: z.array(importIssue),
});

/** Where the notes of a score are played: as its file says, or as proposed for a guitar where it does not. String 1 is the highest; frets count from the capo. Notes without a place are left out. */
export const scoreFingering = z.object({
  notes: z.array(z.object({ note: z.string(), string: z.int(), fret: z.int(), isProposed: z.boolean() })),
  /** What a hand cannot do as it is proposed. */
  issues: z.array(importIssue),
});

export const songDetail = z.object({
  id: uuid,
  courseId: uuid,
  /** The number in its ETag; it grows with every change of the song and with every version of its score. */
  version: z.int(),
  title,
  composer: z.string(),
  arrangementParts: z.array(z.string()).nullable(),
  score: scoreVersion.nullable(),
  splitRevision: z.int(),
  lineCount: z.int(),
  /** Notes of the arrangement that are on no line; null before a score is there. */
  looseNoteCount: z.int().nullable(),
});
