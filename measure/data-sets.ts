import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import type { DataSet } from './piece.ts';

const ticks = z.number().int().nonnegative();

const pieceSchema = z
  .object({
    id: z.string().min(1),
    divisionsPerQuarter: z.number().int().positive(),
    timeSignatures: z
      .array(z.object({ onset: ticks, beats: z.number().int().positive(), beatType: z.number().int().positive() }))
      .default([]),
    notes: z.array(
      z.object({
        onset: ticks,
        duration: ticks,
        midi: z.number().int().min(0).max(127),
        voice: z.union([z.string(), z.number()]).transform(String),
      }),
    ),
  })
  .transform(({ id, divisionsPerQuarter, timeSignatures, notes }) => ({
    id,
    ticksPerQuarter: divisionsPerQuarter,
    meters: timeSignatures.map(({ onset, beats, beatType }) => ({ onsetTicks: onset, beats, beatUnit: beatType })),
    notes: notes.map(({ onset, duration, midi, voice }) => ({ onsetTicks: onset, lengthTicks: duration, midi, voice })),
  }));

const dataSetSchema = z
  .object({ dataset: z.string().min(1), pieces: z.array(pieceSchema) })
  .transform(({ dataset: name, pieces }) => ({ name, pieces }));

function readDataSet(path: string): DataSet {
  const read = dataSetSchema.safeParse(JSON.parse(readFileSync(path, 'utf8')));
  if (!read.success) throw new Error(`${path} is no data set: ${z.prettifyError(read.error)}`);
  return read.data;
}

/** The data sets of a folder, one per JSON file, in order of their file names. **Errors** throws where a file is no data set. */
export const dataSetsIn = (folder: string): readonly DataSet[] =>
  readdirSync(folder)
    .filter((file) => file.endsWith('.json'))
    .sort()
    .map((file) => readDataSet(join(folder, file)));
