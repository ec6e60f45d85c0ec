import { Injectable } from '@nestjs/common';
import { DomainError, notFound } from '../errors/domain-error.ts';
import type { Person } from '../people/person.ts';
import { ScoreKeeper } from './score-keeper.ts';
import { ScoreReader, type UploadedFile } from './score-reader.ts';
import { ScoreUploaded } from './score-uploaded.ts';
import { ScoreFileRepository } from './score-file.repository.ts';
import {
  ScoreVersionRepository,
  toldVersion,
  type ScoreVersionSummary,
  type ToldVersion,
} from './score-version.repository.ts';
import { SongAccess } from './song-access.ts';

/** The normalised MusicXML of a song with the hash that names it. */
export interface NormalisedScore {
  readonly xml: string;
  readonly hash: string;
}

const MOST_TRIES = 3;

@Injectable()
export class ScoresService {
  constructor(
    private readonly versions: ScoreVersionRepository,
    private readonly files: ScoreFileRepository,
    private readonly access: SongAccess,
    private readonly reader: ScoreReader,
    private readonly keeper: ScoreKeeper,
    private readonly uploaded: ScoreUploaded,
  ) {}

  /** Reads a file and keeps it as the song's next version. **Errors** `file-refused` with every issue, `reading-timed-out`, `too-large`. */
  async upload(by: Person, songId: string, file: UploadedFile): Promise<ToldVersion> {
    await this.access.require(by, songId, 'score.upload');
    for (let tries = 1; ; tries += 1) {
      const stored = await this.readAndKeep(by, songId, file);
      if (stored !== null) {
        const found = await this.uploaded.announce({ by, songId, version: stored.version });
        const told = toldVersion(stored);
        return { ...told, issues: [...told.issues, ...found] };
      }
      if (tries === MOST_TRIES)
        throw new DomainError('changed-meanwhile', 'Others are uploading to this song just now. Please try again.');
    }
  }

  async normalised(by: Person, songId: string): Promise<NormalisedScore> {
    const latest = await this.latest(by, songId);
    const xml = await this.versions.normalisedXmlOf(latest.id);
    if (xml === null) throw notFound('score');
    return { xml, hash: latest.normalisedHash };
  }

  async original(by: Person, songId: string): Promise<UploadedFile> {
    const latest = await this.latest(by, songId);
    const bytes = await this.files.bytesOf({ songId, hash: latest.fileHash });
    if (bytes === null) throw notFound('score');
    return { fileName: latest.fileName, bytes };
  }

  private async latest(by: Person, songId: string): Promise<ScoreVersionSummary> {
    await this.access.require(by, songId, 'song.see');
    const latest = await this.versions.latestOf(songId);
    if (latest === null) throw new DomainError('not-found', 'This song has no score yet.');
    return latest;
  }

  /** Null where another version came between reading and keeping. */
  private async readAndKeep(by: Person, songId: string, file: UploadedFile): Promise<ScoreVersionSummary | null> {
    const song = await this.access.require(by, songId, 'score.upload');
    const present = await this.versions.latestOf(songId);
    const namesOf = present === null ? null : { versionId: present.id, isSameMusic: false };
    const wish = { kind: 'asBefore', before: present?.reading ?? null } as const;
    const task = { song, present, file, wish, namesOf };
    return this.keeper.keep(by, task, await this.reader.read(task));
  }
}
