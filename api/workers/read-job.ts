import { createHash } from 'node:crypto';
import {
  arrangementOf,
  defaultArrangement,
  factsOf,
  partId,
  readNormalised,
  readScoreFile,
  type Issue,
  type ReadFile,
  type Result,
  type Score,
} from '../../music/index.ts';
import type { ReadingChoice, ScoreReading } from '../../contract/index.ts';
import { alignReadings } from '../scores/align-readings.ts';
import { alignScores, renamedXml } from '../scores/align-scores.ts';
import { openChoices } from '../scores/open-choices.ts';
import type { KnownReading, ReadingWish, ReadJob, ReadScore, RefusedFile } from './jobs.ts';

const noChoice: ReadingChoice = { tune: null, grid: null, sounding: [] };

interface Chosen {
  readonly choice: ReadingChoice;
  readonly result: Result<ReadFile, readonly Issue[]>;
}

function readWith(job: ReadJob, choice: ReadingChoice): Chosen {
  const { bytes, fileName, firstNoteNumber, firstBarNumber } = job;
  const options = {
    tune: choice.tune ?? undefined,
    grid: choice.grid ?? undefined,
    ofParts: new Map(choice.sounding.map(({ part, ...own }) => [partId(part), own])),
  };
  return { choice, result: readScoreFile(bytes, { fileName, firstNoteNumber, firstBarNumber, ...options }) };
}

/** What was chosen for the file before, as far as the new one has it too. */
function stillPossible({ chosen }: ScoreReading, { choices: { tunes = [] }, sounding }: ReadFile): ReadingChoice {
  return {
    tune: tunes.some(({ number }) => number === chosen.tune) ? chosen.tune : null,
    grid: chosen.grid,
    sounding: openChoices(chosen.sounding, sounding),
  };
}

const isPlain = ({ tune, grid, sounding }: ReadingChoice): boolean =>
  tune === null && grid === null && sounding.length === 0;

function readAsWished(job: ReadJob, wish: ReadingWish): Chosen {
  if (wish.kind === 'chosen') return readWith(job, wish.choice);
  const plain = readWith(job, noChoice);
  if (wish.before === null || !plain.result.ok || plain.result.value.format !== wish.before.format) return plain;
  const choice = stillPossible(wish.before, plain.result.value);
  return isPlain(choice) ? plain : readWith(job, choice);
}

/** How the file was read, with the tune of an ABC file by its number even where nobody chose. */
function readingOf({ format, choices, sounding }: ReadFile, choice: ReadingChoice): ScoreReading {
  const tunes = (choices.tunes ?? []).map(({ number, title }) => ({ number, title }));
  return {
    format,
    chosen: {
      tune: format === 'abc' ? (choice.tune ?? tunes[0]?.number ?? null) : null,
      grid: choice.grid,
      sounding: openChoices(choice.sounding, sounding),
    },
    tunes,
    grid: (choices.grid ?? []).map(({ firstBar, lastBar, kind }) => ({ firstBar, lastBar, kind })),
    sounding: sounding.map((one) => ({ ...one })),
  };
}

const noteIdsOf = (score: Score): ReadScore['noteIds'] =>
  score.parts.map((part) => ({ part: part.id, notes: arrangementOf(score, [part.id]).notes.map((note) => note.id) }));

/** The new reading under the names that are known, as far as alignment finds them. */
function underKnownNames(
  xml: string,
  score: Score,
  { normalisedXml, isSameMusic }: KnownReading,
): { xml: string; score: Score } {
  const align = isSameMusic ? alignReadings : alignScores;
  const renamed = renamedXml(xml, align(readNormalised(normalisedXml).value, score));
  return { xml: renamed, score: readNormalised(renamed).value };
}

/** Reads an uploaded file. */
export function read(job: ReadJob): ReadScore | RefusedFile {
  const { choice, result } = readAsWished(job, job.wish);
  if (!result.ok) return { kind: 'refusedFile', issues: [...result.refusal] };
  const { normalisedXml, score, issues, nextNoteNumber, nextBarNumber } = result.value;
  const kept = job.known === null ? { xml: normalisedXml, score } : underKnownNames(normalisedXml, score, job.known);
  return {
    kind: 'readScore',
    normalisedXml: kept.xml,
    normalisedHash: createHash('sha256').update(kept.xml).digest('hex'),
    facts: factsOf(kept.score),
    reading: readingOf(result.value, choice),
    issues: [...issues],
    noteIds: noteIdsOf(kept.score),
    arrangementParts: [...defaultArrangement(kept.score)],
    nextNoteNumber,
    nextBarNumber,
  };
}
