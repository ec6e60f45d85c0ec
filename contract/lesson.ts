import { z } from 'zod';
import { lineId, lineSchema, noteMarkSchema } from '../music/index.ts';
import { excerptSchema } from './excerpt.ts';
import { lineInstrument, namedMixes, plainPlaying, playingSchema } from './song-sound.ts';
import { instant, prose, title, uuid } from './ids.ts';

const line = z.string().min(1).max(64).transform(lineId);
const stepShape = { id: z.string().min(1).max(64), title };

/** How the bars are shown. */
export const view = z.enum(['stacked', 'threaded', 'writtenOut', 'ribbons']);

/** What is set for one line of a step. **Units** decibels; `place` −1 (left) to 1 (right); `tone` −1 (dark) to 1 (bright). */
export const lineMix = z.object({
  line,
  levelDb: z.number().min(-60).max(12),
  place: z.number().min(-1).max(1),
  tone: z.number().min(-1).max(1).default(0),
  instrument: lineInstrument.optional(),
});

/** One step of a listening path. Every step names the lines that sound. */
export const pathStep = z.discriminatedUnion('kind', [
  /** The lines sound; one of them may be brought forward. */
  z.object({
    kind: z.literal('hear'),
    ...stepShape,
    lines: z.array(line).min(1),
    forward: line.nullable(),
    mix: z.array(lineMix),
    view,
  }),
  /** Hear, then the same length of silence to sing in, then hear again. */
  z.object({ kind: z.literal('echo'), ...stepShape, lines: z.array(line).min(1), mix: z.array(lineMix), view }),
  /** Only the first note, a count-in, silence to sing in; then the line is revealed and the singer marks himself or herself. */
  z.object({ kind: z.literal('reveal'), ...stepShape, lines: z.array(line).length(1), view }),
  /** One line fades from pass to pass while the others go on. */
  z.object({
    kind: z.literal('fade'),
    ...stepShape,
    lines: z.array(line).min(1),
    fading: line,
    passes: z.int().min(2).max(8),
    view,
  }),
]);
export type PathStep = z.output<typeof pathStep>;

/** One step of a lesson. */
export const lessonStep = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('text'), id: z.string().min(1).max(64), text: prose }),
  z.object({
    kind: z.literal('listen'),
    id: z.string().min(1).max(64),
    title,
    excerpt: excerptSchema,
    tempoPercent: z.int().min(25).max(150),
    path: z.array(pathStep).max(40),
    /** Mixes that the teacher gives along, beside the path. */
    mixes: namedMixes.default([]),
  }),
]);
export type LessonStep = z.output<typeof lessonStep>;

export const lessonDraft = z.object({ title, steps: z.array(lessonStep).max(60).default([]) });
export const lessonChange = z.object({ title, steps: z.array(lessonStep).max(60) }).partial();

/** All lessons of a course in their new order. */
export const lessonOrder = z.object({ lessonIds: z.array(uuid).max(500) });

/** A lesson as teachers edit it; its ETag is `version`. */
export const lessonDetail = z.object({
  id: uuid,
  courseId: uuid,
  songId: uuid,
  title,
  position: z.int(),
  version: z.int(),
  steps: z.array(lessonStep),
  latestRelease: z.object({ id: uuid, number: z.int(), releasedAt: instant, contentHash: z.string() }).nullable(),
  hasChangesSinceRelease: z.boolean(),
});

/** A lesson frozen: everything that a student's page needs, and nothing about people. Readers for every older `schema` stay. */
export const releaseContent = z.object({
  schema: z.literal(1),
  title,
  song: z.object({ title, composer: z.string() }),
  steps: z.array(lessonStep),
  /** How the song was played when the lesson was released. */
  playing: playingSchema.default(plainPlaying),
  /** The normalised MusicXML that the excerpts name their bars in. */
  musicXml: z.string(),
  arrangementParts: z.array(z.string()),
  lines: z.array(lineSchema),
  marks: z.array(z.tuple([z.string(), noteMarkSchema.shape.lines])),
});
export type ReleaseContent = z.output<typeof releaseContent>;

export const releaseDetail = z.object({
  id: uuid,
  lessonId: uuid,
  courseId: uuid,
  number: z.int(),
  releasedAt: instant,
  contentHash: z.string(),
  content: releaseContent,
  /** The released lessons before and after this one, in course order. */
  previous: z.object({ id: uuid, title }).nullable(),
  next: z.object({ id: uuid, title }).nullable(),
});

/** How a student judged one try at singing a step. */
export const attemptDraft = z.object({
  stepId: z.string().min(1).max(64),
  pathStepId: z.string().min(1).max(64),
  outcome: z.enum(['heard', 'sang', 'nearly', 'notYet']),
});
export const attempt = attemptDraft.extend({ id: uuid, at: instant });
export const attemptsOfRelease = z.object({ attempts: z.array(attempt) });

/** How every student of a course fares: the latest outcome of each path step, over all releases of a lesson. */
export const progressOfCourse = z.object({
  students: z.array(z.object({ personId: uuid, name: z.string(), joinedAt: instant })),
  lessons: z.array(z.object({ lessonId: uuid, title, position: z.int(), releaseId: uuid, pathStepCount: z.int() })),
  progress: z.array(
    z.object({
      personId: uuid,
      lessonId: uuid,
      attemptCount: z.int(),
      latestAt: instant,
      latest: z.array(attemptDraft),
    }),
  ),
});
