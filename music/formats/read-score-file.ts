import type { Issue } from '../basis/issue.ts';
import { ok, type Result } from '../basis/result.ts';
import { readScoreFile as readMusicXmlFile, type ReadScore, type ScoreSource } from './musicxml/read-score.ts';

/** What a file turned out to be. */
export type FileFormat = 'musicxml';

/** A score file as it was read, with what it turned out to be. */
export interface ReadFile extends ReadScore {
  readonly format: FileFormat;
  readonly choices: Record<string, never>;
}

/** A score file of any format that Heddle reads. */
export function readScoreFile(bytes: Uint8Array, source: ScoreSource): Result<ReadFile, readonly Issue[]> {
  const read = readMusicXmlFile(bytes, source);
  return read.ok ? ok({ ...read.value, format: 'musicxml', choices: {} }) : read;
}
