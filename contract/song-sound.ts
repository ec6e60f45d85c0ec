import { z } from 'zod';
import { expressionSchema, lineId, plainExpression } from '../music/index.ts';
import { title } from './ids.ts';

const line = z.string().min(1).max(64).transform(lineId);

/** What a line may be played with instead of its usual instrument. */
export const lineInstrument = z.enum(['steel', 'nylon', 'bass', 'hum']);

/** How one line of a named mix sounds. **Units** decibels; tone −1 (dark) to 1 (bright); place −1 (left) to 1 (right). */
export const mixOfLine = z.object({
  line,
  levelDb: z.number().min(-60).max(12),
  tone: z.number().min(-1).max(1),
  place: z.number().min(-1).max(1),
  isLifted: z.boolean().optional(),
  isSolo: z.boolean(),
  isMuted: z.boolean(),
  instrument: lineInstrument.optional(),
});

/** A mix with a name; a line that it does not tell of sounds plainly. */
export const namedMix = z.object({
  id: z.string().min(1).max(64),
  name: title.max(60),
  lines: z.array(mixOfLine).max(64),
  /** The line that is brought forward; null for none. */
  forward: line.nullable(),
});
export type NamedMix = z.output<typeof namedMix>;

/** The mix that has this name, whatever its capitals and the spaces around it; the first of several, undefined where none has it. */
export const mixNamed = (mixes: readonly NamedMix[], name: string): NamedMix | undefined =>
  mixes.find((mix) => mix.name.toLowerCase() === name.trim().toLowerCase());

const isEachOnce = (ids: readonly string[]): boolean => new Set(ids).size === ids.length;

/** Mixes in the order in which they are shown, each with an id of its own and each line once. */
export const namedMixes = z
  .array(namedMix)
  .max(60)
  .refine((mixes) => isEachOnce(mixes.map(({ id }) => id)), 'two mixes have the same id')
  .refine(
    (mixes) => mixes.every(({ lines }) => isEachOnce(lines.map((each) => each.line))),
    'a mix names a line twice',
  );

/** How a song is played: what counts how much, and how even the hand is; `human` null plays evenly. */
export const playingSchema = z.object({
  expression: expressionSchema,
  human: z.object({ seed: z.int().min(0).max(0xffff_ffff), amount: z.number().min(0).max(1) }).nullable(),
});
export type Playing = z.output<typeof playingSchema>;

/** A song played as it is written, evenly. */
export const plainPlaying: Playing = { expression: plainExpression, human: null };

/** A song's sound as its teachers keep it; its version is its ETag. */
export const songSound = z.object({ playing: playingSchema, mixes: namedMixes });
export type SongSound = z.output<typeof songSound>;

/** Somebody's own mixes for one lesson; their version is their ETag. */
export const ownMixes = z.object({ mixes: namedMixes });
export type OwnMixes = z.output<typeof ownMixes>;
