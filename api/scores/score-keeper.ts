import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { Clock } from '../clock/clock.ts';
import type { Columns } from '../database/columns.ts';
import { Database } from '../database/database.ts';
import { notFound } from '../errors/domain-error.ts';
import type { Person } from '../people/person.ts';
import type { ReadScore } from '../workers/jobs.ts';
import type { ReadingTask } from './score-reader.ts';
import { ScoreFileRepository } from './score-file.repository.ts';
import type { ScoreVersionEntity } from './score-version.entity.ts';
import { ScoreVersionRepository, type ScoreVersionSummary } from './score-version.repository.ts';
import { SongRepository } from './song.repository.ts';

const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** Keeps what was read as a song's next version. */
@Injectable()
export class ScoreKeeper {
  constructor(
    private readonly versions: ScoreVersionRepository,
    private readonly files: ScoreFileRepository,
    private readonly songs: SongRepository,
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  /** Null where another version came between reading and keeping. */
  keep(by: Person, task: ReadingTask, read: ReadScore): Promise<ScoreVersionSummary | null> {
    return this.database.transaction(async () => {
      const { song: seen, present } = task;
      const song = await this.songs.lock(seen.id);
      if (song === null) throw notFound('song');
      if (song.nextNoteNumber !== seen.nextNoteNumber || song.nextBarNumber !== seen.nextBarNumber) return null;
      if ((await this.versions.latestOf(song.id))?.version !== present?.version) return null; // an alike score uses no new numbers
      const version = this.versionOf(by, task, read);
      await this.files.keep({ songId: song.id, hash: version.fileHash, bytes: Buffer.from(task.file.bytes) });
      await this.versions.insert(version);
      const { nextNoteNumber, nextBarNumber } = read;
      const arrangementParts = stillThere(song.arrangementParts, read);
      await this.songs.takeScore(song.id, { nextNoteNumber, nextBarNumber, arrangementParts });
      return version;
    });
  }

  private versionOf(by: Person, { song, present, file }: ReadingTask, read: ReadScore): Columns<ScoreVersionEntity> {
    return {
      id: this.clock.newId(),
      songId: song.id,
      version: (present?.version ?? 0) + 1,
      fileName: file.fileName,
      fileHash: sha256(file.bytes),
      byteCount: file.bytes.byteLength,
      normalisedXml: read.normalisedXml,
      normalisedHash: read.normalisedHash,
      facts: read.facts,
      reading: read.reading,
      issues: [...read.issues],
      noteIds: [...read.noteIds],
      arrangementParts: [...read.arrangementParts],
      uploadedBy: by.id,
      uploadedAt: this.clock.now(),
    };
  }
}

/** The teacher's choice of parts, as long as the new version has them all. */
const stillThere = (parts: readonly string[] | null, read: ReadScore): string[] | null =>
  parts !== null && parts.every((part) => read.facts.parts.some(({ id }) => id === part)) ? [...parts] : null;
