import { Injectable } from '@nestjs/common';
import type { z } from 'zod';
import type { songChange, songDetail, songDraft } from '../../contract/index.ts';
import { Clock } from '../clock/clock.ts';
import { CourseAccess } from '../courses/course-access.ts';
import type { Columns } from '../database/columns.ts';
import { Database } from '../database/database.ts';
import { withoutGaps } from '../database/without-gaps.ts';
import { DomainError } from '../errors/domain-error.ts';
import type { Person } from '../people/person.ts';
import { ScoreVersionRepository, toldVersion, type ToldVersion } from './score-version.repository.ts';
import { SongAccess } from './song-access.ts';
import type { SongEntity } from './song.entity.ts';
import { SongRepository } from './song.repository.ts';

/** A song with its version, which its ETag tells. */
export type VersionedSong = Omit<z.input<typeof songDetail>, 'score'> & { version: number; score: ToldVersion | null };

@Injectable()
export class SongsService {
  constructor(
    private readonly songs: SongRepository,
    private readonly versions: ScoreVersionRepository,
    private readonly songAccess: SongAccess,
    private readonly courseAccess: CourseAccess,
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  async make(by: Person, courseId: string, draft: z.output<typeof songDraft>): Promise<VersionedSong> {
    await this.courseAccess.require(by.id, courseId, 'song.change');
    const song: Columns<SongEntity> = {
      id: this.clock.newId(),
      courseId,
      ...draft,
      arrangementParts: null,
      nextNoteNumber: 1,
      nextBarNumber: 1,
      version: 1,
      createdAt: this.clock.now(),
    };
    await this.database.transaction(() => this.songs.insert(song));
    return this.told(song);
  }

  async detail(by: Person, songId: string): Promise<VersionedSong> {
    return this.told(await this.songAccess.require(by, songId, 'song.see'));
  }

  /** **Errors** `body-invalid` for parts that the score has not, `changed-meanwhile`. */
  async change(
    by: Person,
    songId: string,
    change: z.output<typeof songChange>,
    seenVersion: number | null,
  ): Promise<VersionedSong> {
    const song = await this.songAccess.require(by, songId, 'song.change');
    if (change.arrangementParts !== undefined) await this.refuseUnknownParts(songId, change.arrangementParts);
    if (!(await this.songs.change(songId, withoutGaps(change), seenVersion))) {
      throw new DomainError(
        'changed-meanwhile',
        'Somebody else changed this song meanwhile. Look at it again, then change it.',
      );
    }
    return this.told((await this.songs.withId(songId)) ?? song);
  }

  private async refuseUnknownParts(songId: string, parts: readonly string[]): Promise<void> {
    const latest = await this.versions.latestOf(songId);
    if (latest === null) throw new DomainError('nothing-to-split', 'Upload a score first, then choose its parts.');
    const unknown = parts.find((part) => !latest.facts.parts.some(({ id }) => id === part));
    if (unknown !== undefined) throw new DomainError('body-invalid', `The score has no part ${unknown}.`);
  }

  private async told(song: Columns<SongEntity>): Promise<VersionedSong> {
    const { id, courseId, title, composer, version } = song;
    const [latest, state] = await Promise.all([this.versions.latestOf(id), this.songs.splitStateOf(id)]);
    const shared = { id, courseId, title, composer, version, ...state };
    if (latest === null) return { ...shared, arrangementParts: null, score: null, looseNoteCount: null };
    return {
      ...shared,
      arrangementParts: song.arrangementParts ?? latest.arrangementParts,
      score: toldVersion(latest),
      looseNoteCount: await this.songs.looseNoteCountOf(id),
    };
  }
}
