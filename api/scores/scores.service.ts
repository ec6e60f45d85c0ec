import { Injectable } from '@nestjs/common';
import { Clock } from '../clock/clock.ts';
import type { Columns } from '../database/columns.ts';
import { Database } from '../database/database.ts';
import { DomainError, notFound } from '../errors/domain-error.ts';
import type { Person } from '../people/person.ts';
import { SongAccess } from './song-access.ts';
import type { SongEntity } from './song.entity.ts';
import { SongRepository } from './song.repository.ts';
import type { ReadScore } from '../workers/jobs.ts';
import { Workers } from '../workers/workers.ts';
import type { ScoreVersionEntity } from './score-version.entity.ts';
import { ScoreUploaded } from './score-uploaded.ts';
import {
  ScoreVersionRepository,
  toldVersion,
  type ToldVersion,
  type ScoreVersionSummary,
} from './score-version.repository.ts';

/** A file as it came in. */
export interface UploadedFile {
  readonly fileName: string;
  readonly bytes: Uint8Array;
}

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
    private readonly songs: SongRepository,
    private readonly access: SongAccess,
    private readonly database: Database,
    private readonly workers: Workers,
    private readonly uploaded: ScoreUploaded,
    private readonly clock: Clock,
  ) {}

  /** Reads a file and keeps it as the song's next version. **Errors** `file-refused` with every issue, `reading-timed-out`, `too-large`. */
  async upload(by: Person, songId: string, file: UploadedFile): Promise<ToldVersion> {
    await this.access.require(by, songId, 'score.upload');
    for (let tries = 1; ; tries += 1) {
      const stored = await this.readAndStore(by, songId, file);
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
    const bytes = await this.versions.originalOf(latest.id);
    if (bytes === null) throw notFound('score');
    return { fileName: latest.fileName, bytes };
  }

  private async latest(by: Person, songId: string): Promise<ScoreVersionSummary> {
    await this.access.require(by, songId, 'song.see');
    const latest = await this.versions.latestOf(songId);
    if (latest === null) throw new DomainError('not-found', 'This song has no score yet.');
    return latest;
  }

  /** Null where another upload came between reading and storing. */
  private async readAndStore(by: Person, songId: string, file: UploadedFile): Promise<ScoreVersionSummary | null> {
    const song = await this.songs.withId(songId);
    if (song === null) throw notFound('song');
    const present = await this.versions.latestOf(songId);
    const read = await this.read(song, present, file);
    return this.database.transaction(() => this.store(by, song, present, file, read));
  }

  private async read(
    song: SongEntity,
    present: ScoreVersionSummary | null,
    { bytes, fileName }: UploadedFile,
  ): Promise<ReadScore> {
    const presentXml = present === null ? null : await this.versions.normalisedXmlOf(present.id);
    const { nextNoteNumber: firstNoteNumber, nextBarNumber: firstBarNumber } = song;
    const answer = await this.workers.run({
      kind: 'read',
      bytes,
      fileName,
      firstNoteNumber,
      firstBarNumber,
      presentXml,
    });
    if (answer.kind === 'readScore') return answer;
    const what =
      answer.issues.find((issue) => issue.severity === 'error')?.detail ?? 'It holds no music that can be read.';
    const kept =
      present === null ? 'The song still has no score' : `The song keeps version ${present.version} of its score`;
    throw new DomainError(
      'file-refused',
      `${fileName} was not taken: ${what} ${kept}; the file itself was not kept.`,
      answer.issues,
    );
  }

  private async store(
    by: Person,
    seen: SongEntity,
    present: ScoreVersionSummary | null,
    file: UploadedFile,
    read: ReadScore,
  ): Promise<ScoreVersionSummary | null> {
    const song = await this.songs.lock(seen.id);
    if (song === null) throw notFound('song');
    if (song.nextNoteNumber !== seen.nextNoteNumber || song.nextBarNumber !== seen.nextBarNumber) return null;
    if ((await this.versions.latestOf(song.id))?.version !== present?.version) return null; // an alike score uses no new numbers
    const version: Columns<ScoreVersionEntity> = {
      id: this.clock.newId(),
      songId: song.id,
      version: (present?.version ?? 0) + 1,
      fileName: file.fileName,
      original: Buffer.from(file.bytes),
      byteCount: file.bytes.byteLength,
      normalisedXml: read.normalisedXml,
      normalisedHash: read.normalisedHash,
      facts: read.facts,
      issues: [...read.issues],
      noteIds: [...read.noteIds],
      arrangementParts: [...read.arrangementParts],
      uploadedBy: by.id,
      uploadedAt: this.clock.now(),
    };
    await this.versions.insert(version);
    const { nextNoteNumber, nextBarNumber } = read;
    await this.songs.useNumbers(song.id, {
      nextNoteNumber,
      nextBarNumber,
      arrangementParts: stillThere(song.arrangementParts, read),
    });
    return version;
  }
}

/** The teacher's choice of parts, as long as the new version has them all. */
const stillThere = (parts: readonly string[] | null, read: ReadScore): string[] | null =>
  parts !== null && parts.every((part) => read.facts.parts.some(({ id }) => id === part)) ? [...parts] : null;
