import { Injectable } from '@nestjs/common';
import type { ExportFormat, ExportWish } from '../../contract/index.ts';
import { Database } from '../database/database.ts';
import { DomainError, notFound } from '../errors/domain-error.ts';
import type { Person } from '../people/person.ts';
import { ScoreFileRepository } from '../scores/score-file.repository.ts';
import { ScoreVersionRepository } from '../scores/score-version.repository.ts';
import { SongAccess } from '../scores/song-access.ts';
import { SplitsService } from '../splits/splits.service.ts';
import type { ExportJob } from '../workers/jobs.ts';
import { Workers } from '../workers/workers.ts';

/** A file on its way out. */
export interface ExportedFile {
  readonly name: string;
  readonly format: ExportFormat;
  readonly bytes: Uint8Array;
  /** What the file could not say, in sentences. */
  readonly notes: readonly string[];
}

@Injectable()
export class ExportsService {
  constructor(
    private readonly access: SongAccess,
    private readonly versions: ScoreVersionRepository,
    private readonly files: ScoreFileRepository,
    private readonly splits: SplitsService,
    private readonly database: Database,
    private readonly workers: Workers,
  ) {}

  /** A file of the song as it stands. **Errors** `not-found` without a score or for a line that is not there, `body-invalid` for bars that it has not. */
  async file(by: Person, songId: string, wish: ExportWish): Promise<ExportedFile> {
    const answer = await this.workers.run(await this.database.snapshot(() => this.job(by, songId, wish)));
    if (answer.kind === 'exported')
      return { name: answer.name, format: wish.format, bytes: answer.bytes, notes: answer.notes };
    if (answer.why === 'noSuchLine') throw notFound('line');
    throw new DomainError(
      'body-invalid',
      'The score has no such bars, or nothing lies between the ends that were named.',
    );
  }

  private async job(by: Person, songId: string, wish: ExportWish): Promise<ExportJob> {
    const song = await this.access.require(by, songId, 'song.see');
    const latest = await this.versions.latestOf(songId);
    const normalisedXml = latest === null ? null : await this.versions.normalisedXmlOf(latest.id);
    if (latest === null || normalisedXml === null)
      throw new DomainError('not-found', 'This song has no score yet, so there is nothing to take out.');
    const original = wish.format === 'archive' ? await this.files.bytesOf({ songId, hash: latest.fileHash }) : null;
    return {
      kind: 'export',
      wish,
      title: song.title,
      composer: song.composer,
      normalisedXml,
      parts: song.arrangementParts ?? latest.arrangementParts,
      split: await this.splits.snapshot(by, songId),
      original: original === null ? null : { name: latest.fileName, bytes: new Uint8Array(original) },
    };
  }
}
