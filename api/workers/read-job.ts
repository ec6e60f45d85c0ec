import { createHash } from 'node:crypto';
import {
  arrangementOf,
  defaultArrangement,
  factsOf,
  readNormalised,
  readScoreFile,
  type Score,
} from '../../music/index.ts';
import { alignScores, renamedXml } from '../scores/align-scores.ts';
import type { ReadJob, ReadScore, RefusedFile } from './jobs.ts';

const noteIdsOf = (score: Score): ReadScore['noteIds'] =>
  score.parts.map((part) => ({ part: part.id, notes: arrangementOf(score, [part.id]).notes.map((note) => note.id) }));

/** The new reading under the names of the present score, as far as alignment finds them. */
function underPresentNames(xml: string, score: Score, presentXml: string): { xml: string; score: Score } {
  const renamed = renamedXml(xml, alignScores(readNormalised(presentXml).value, score));
  return { xml: renamed, score: readNormalised(renamed).value };
}

/** Reads an uploaded file. */
export function read({
  bytes,
  fileName,
  firstNoteNumber,
  firstBarNumber,
  presentXml,
}: ReadJob): ReadScore | RefusedFile {
  const result = readScoreFile(bytes, { fileName, firstNoteNumber, firstBarNumber });
  if (!result.ok) return { kind: 'refusedFile', issues: [...result.refusal] };
  const { normalisedXml, score, issues, nextNoteNumber, nextBarNumber } = result.value;
  const kept =
    presentXml === null ? { xml: normalisedXml, score } : underPresentNames(normalisedXml, score, presentXml);
  return {
    kind: 'readScore',
    normalisedXml: kept.xml,
    normalisedHash: createHash('sha256').update(kept.xml).digest('hex'),
    facts: factsOf(kept.score),
    issues: [...issues],
    noteIds: noteIdsOf(kept.score),
    arrangementParts: [...defaultArrangement(kept.score)],
    nextNoteNumber,
    nextBarNumber,
  };
}
