import { z } from 'zod';
import { lineId } from '../music/index.ts';
import { excerptSchema } from './excerpt.ts';
import { instant, uuid } from './ids.ts';
import { mixOfLine } from './song-sound.ts';

const line = z.string().min(1).max(64).transform(lineId);

const heardMix = z.object({ lines: z.array(mixOfLine).max(64), forward: line.nullable() });
const nameOfMix = z.object({ name: z.string().trim().min(1).max(60) });

/** What sound files are asked for: by default the whole song as it is written, everybody, one WAV file, as loud as it is played. **Units** LUFS, percent of the written tempo. */
export const soundFilesWish = z.object({
  /** Null for the whole song. */
  excerpt: excerptSchema.nullable().default(null),
  /** Of an excerpt only those repeats are unfolded that lie within it. */
  repeats: z.enum(['unfolded', 'written']).default('unfolded'),
  /** Said in full, or by the name that the song's teachers keep it under. */
  mix: z.union([heardMix, nameOfMix]).default({ lines: [], forward: null }),
  tempoPercent: z.number().min(25).max(150).default(100),
  countInBars: z.literal([0, 1, 2]).default(0),
  click: z.enum(['with', 'without']).default('without'),
  /** One file of everything together, or beside it one of each line, in a zip. */
  files: z.enum(['mix', 'mixAndLines']).default('mix'),
  format: z.enum(['wav', 'flac', 'mp3']).default('wav'),
  loudnessLufs: z.number().min(-40).max(-9).nullable().default(null),
});
export type SoundFilesWish = z.output<typeof soundFilesWish>;
/** A wish whose mix is said in full. */
export type HeardSoundFilesWish = SoundFilesWish & { readonly mix: z.output<typeof heardMix> };

/** One sound in what was made; levels of silence are null. **Units** LUFS, dBTP. */
const soundMade = z.object({
  /** `mix`, `loose` for notes on no line, `click`, or a line’s id. */
  holds: z.string(),
  name: z.string(),
  loudnessLufs: z.number().nullable(),
  truePeakDb: z.number().nullable(),
});

/** How far a making of sound files is. */
export const soundFilesJob = z.discriminatedUnion('state', [
  /** `place` 1 is the next to begin. */
  z.object({ id: uuid, state: z.literal('waiting'), place: z.int() }),
  z.object({ id: uuid, state: z.literal('rendering'), share: z.number() }),
  z.object({
    id: uuid,
    state: z.literal('ready'),
    url: z.string(),
    name: z.string(),
    bytes: z.int(),
    lengthSeconds: z.number(),
    sounds: z.array(soundMade),
    keptUntil: instant,
  }),
  z.object({ id: uuid, state: z.literal('failed'), detail: z.string() }),
]);
export type SoundFilesJob = z.output<typeof soundFilesJob>;
