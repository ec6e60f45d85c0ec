import type { z } from 'zod';
import type {
  ExportWish,
  Playing,
  ReadingChoice,
  ScoreReading,
  HeardSoundFilesWish,
  importIssue,
} from '../../contract/index.ts';
import type { Operation, ScoreFacts, SplitSnapshot } from '../../music/index.ts';

type ImportIssue = z.output<typeof importIssue>;

/** How a file is to be read: as a person chose, or, for a newer file, as the one before it where both are of one format. */
export type ReadingWish =
  | { readonly kind: 'chosen'; readonly choice: ReadingChoice }
  | { readonly kind: 'asBefore'; readonly before: ScoreReading | null };

/** The version whose names a new reading keeps. */
export interface KnownReading {
  readonly normalisedXml: string;
  /** Read from the very same file, perhaps in another way. */
  readonly isSameMusic: boolean;
}

/** Read an uploaded file, keeping the names of what is known already. */
export interface ReadJob {
  readonly kind: 'read';
  readonly bytes: Uint8Array;
  readonly fileName: string;
  readonly firstNoteNumber: number;
  readonly firstBarNumber: number;
  readonly wish: ReadingWish;
  /** Null for the first version. */
  readonly known: KnownReading | null;
}

/** A file as it was read. */
export interface ReadScore {
  readonly kind: 'readScore';
  readonly normalisedXml: string;
  readonly normalisedHash: string;
  readonly facts: ScoreFacts;
  readonly reading: ScoreReading;
  readonly issues: readonly ImportIssue[];
  readonly noteIds: readonly { readonly part: string; readonly notes: readonly string[] }[];
  readonly arrangementParts: readonly string[];
  readonly nextNoteNumber: number;
  readonly nextBarNumber: number;
}

/** A file that could not be read, and why. */
export interface RefusedFile {
  readonly kind: 'refusedFile';
  readonly issues: readonly ImportIssue[];
}

/** Propose a split for some parts of a score. */
export interface ProposeJob {
  readonly kind: 'propose';
  readonly normalisedXml: string;
  readonly parts: readonly string[];
  readonly split: SplitSnapshot;
  readonly lineCount: number | null;
  /** Names for the lines that the proposal may need; as many as a split can have. */
  readonly newLineIds: readonly string[];
}

/** What a proposal would do. */
export interface Proposed {
  readonly kind: 'proposed';
  readonly operation: Operation;
  /** Notes that the proposal is unsure about. */
  readonly unsureCount: number;
  readonly changedCount: number;
}

/** Tell where the notes of some parts are played. */
export interface FingeringJob {
  readonly kind: 'fingering';
  readonly normalisedXml: string;
  readonly parts: readonly string[];
}

/** Places on the fingerboard, told by the file or proposed. */
export interface FoundFingering {
  readonly kind: 'foundFingering';
  readonly notes: readonly {
    readonly note: string;
    readonly string: number;
    readonly fret: number;
    readonly isProposed: boolean;
  }[];
  readonly issues: readonly ImportIssue[];
}

/** Make a file of a song. */
export interface ExportJob {
  readonly kind: 'export';
  readonly wish: ExportWish;
  readonly title: string;
  readonly composer: string;
  readonly normalisedXml: string;
  readonly parts: readonly string[];
  readonly split: SplitSnapshot;
  /** The file as it was uploaded, for an archive of everything. */
  readonly original: { readonly name: string; readonly bytes: Uint8Array } | null;
}

/** A file that was made, with sentences about what it could not say. */
export interface Exported {
  readonly kind: 'exported';
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly notes: readonly string[];
}

/** Nothing could be made, since what was named is not there. */
export interface NothingExported {
  readonly kind: 'nothingExported';
  readonly why: 'noSuchLine' | 'noSuchBars';
}

/** Render sound into a file. */
export interface SoundJob {
  readonly kind: 'sound';
  readonly wish: HeardSoundFilesWish;
  readonly playing: Playing;
  readonly normalisedXml: string;
  readonly parts: readonly string[];
  readonly split: SplitSnapshot;
  /** The path of the file; beside it the worker may keep what it is made of. */
  readonly target: string;
}

/** A file of sound that was written. */
export interface Rendered {
  readonly kind: 'rendered';
  readonly sounds: readonly {
    readonly holds: string;
    readonly name: string;
    readonly loudnessLufs: number;
    readonly truePeakDb: number;
  }[];
  readonly lengthSeconds: number;
}

/** Nothing could be rendered. */
export interface NothingRendered {
  readonly kind: 'nothingRendered';
  readonly why: 'noSuchBars' | 'tooLong';
}

/** Every job with its answers. */
export interface JobAnswers {
  readonly read: ReadScore | RefusedFile;
  readonly propose: Proposed;
  readonly fingering: FoundFingering;
  readonly export: Exported | NothingExported;
  readonly sound: Rendered | NothingRendered;
}
export type Job = ReadJob | ProposeJob | FingeringJob | ExportJob | SoundJob;
export type AnswerOf<Kind extends Job['kind']> = JobAnswers[Kind];

/** What crosses between the API and a worker process. */
export interface JobMessage {
  readonly number: number;
  readonly job: Job;
}
export type AnswerMessage =
  | { readonly number: number; readonly answer: JobAnswers[Job['kind']] }
  | { readonly number: number; readonly failure: string }
  /** How much of the job is done, 0 to 1; the answer follows. */
  | { readonly number: number; readonly share: number };
