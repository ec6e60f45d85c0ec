import { Injectable } from '@nestjs/common';
import { DomainError } from '../errors/domain-error.ts';
import type { KnownReading, ReadingWish, ReadScore } from '../workers/jobs.ts';
import { Workers } from '../workers/workers.ts';
import { ScoreVersionRepository, type ScoreVersionSummary } from './score-version.repository.ts';
import type { SongEntity } from './song.entity.ts';

/** A file as it came in. */
export interface UploadedFile {
  readonly fileName: string;
  readonly bytes: Uint8Array;
}

/** What a file is read for, and under whose names. */
export interface ReadingTask {
  readonly song: SongEntity;
  readonly present: ScoreVersionSummary | null;
  readonly file: UploadedFile;
  readonly wish: ReadingWish;
  /** The version whose names the reading keeps; null for the first. */
  readonly namesOf: { readonly versionId: string; readonly isSameMusic: boolean } | null;
}

/** Reads files of songs in a process of their own. */
@Injectable()
export class ScoreReader {
  constructor(
    private readonly versions: ScoreVersionRepository,
    private readonly workers: Workers,
  ) {}

  /** **Errors** `file-refused` with every issue, `reading-timed-out`, `too-large`. */
  async read(task: ReadingTask): Promise<ReadScore> {
    const { song, file, wish } = task;
    const answer = await this.workers.run({
      kind: 'read',
      ...file,
      firstNoteNumber: song.nextNoteNumber,
      firstBarNumber: song.nextBarNumber,
      wish,
      known: await this.known(task),
    });
    if (answer.kind === 'readScore') return answer;
    throw new DomainError('file-refused', refusal(task, answer.issues), answer.issues);
  }

  private async known({ namesOf }: ReadingTask): Promise<KnownReading | null> {
    const normalisedXml = namesOf === null ? null : await this.versions.normalisedXmlOf(namesOf.versionId);
    return namesOf === null || normalisedXml === null ? null : { normalisedXml, isSameMusic: namesOf.isSameMusic };
  }
}

function refusal(
  { file, present, wish }: ReadingTask,
  issues: readonly { readonly severity: string; readonly detail: string }[],
): string {
  const what = issues.find(({ severity }) => severity === 'error')?.detail ?? 'It holds no music that can be read.';
  if (wish.kind === 'chosen')
    return `${file.fileName} was not read again: ${what} The song keeps its score as it was read.`;
  const kept =
    present === null ? 'The song still has no score' : `The song keeps version ${present.version} of its score`;
  return `${file.fileName} was not taken: ${what} ${kept}; the file itself was not kept.`;
}
