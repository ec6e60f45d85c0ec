import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { releaseContent } from '../../contract/index.ts';
import { Clock } from '../clock/clock.ts';
import { Database } from '../database/database.ts';
import { DomainError, notFound } from '../errors/domain-error.ts';
import type { Person } from '../people/person.ts';
import { SongContents } from '../splits/song-contents.ts';
import { canonicalJson } from './canonical-json.ts';
import { LessonAccess } from './lesson-access.ts';
import type { LessonEntity } from './lesson.entity.ts';
import { LessonRepository } from './lesson.repository.ts';
import { pathStepsOf, releaseContentOf } from './release-content.ts';
import { ReleaseContents } from './release-contents.ts';
import { ReleaseRepository, type Neighbour, type ReleaseSummary } from './release.repository.ts';

/** A release with its neighbours; the content is fetched apart, as text. */
export interface ReleaseFound {
  readonly release: ReleaseSummary;
  readonly previous: Neighbour | null;
  readonly next: Neighbour | null;
}

const RELEASE_SCHEMA = 1;

@Injectable()
export class ReleasesService {
  constructor(
    private readonly releases: ReleaseRepository,
    private readonly frozen: ReleaseContents,
    private readonly lessons: LessonRepository,
    private readonly access: LessonAccess,
    private readonly contents: SongContents,
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  /** Freezes the lesson as it stands; where nothing has changed since the latest release, that one is the answer. **Errors** `nothing-to-split`, `operation-unknown-line`, `body-invalid`. */
  async release(by: Person, lessonId: string): Promise<ReleaseFound> {
    await this.access.require(by, lessonId, 'lesson.release');
    const release = await this.database.transaction(() => this.freeze(by, lessonId));
    return { release, ...(await this.releases.neighboursOf(release.courseId, lessonId)) };
  }

  async find(by: Person, releaseId: string): Promise<ReleaseFound> {
    const release = await this.access.requireRelease(by, releaseId, 'release.read');
    return { release, ...(await this.releases.neighboursOf(release.courseId, release.lessonId)) };
  }

  /** The content of a release that was found, as the UTF-8 JSON that its hash is over. */
  async contentOf({ release }: ReleaseFound): Promise<Buffer> {
    const content = await this.frozen.of(release);
    if (content === null) throw notFound('lesson');
    return content;
  }

  private async freeze(by: Person, lessonId: string): Promise<ReleaseSummary> {
    const lesson = await this.lessons.lock(lessonId);
    if (lesson === null) throw notFound('lesson');
    const song = await this.contents.of(lesson.songId);
    if (song === null)
      throw new DomainError('nothing-to-split', 'Upload a score first, then release lessons about it.');
    const frozen = releaseContentOf({ ...song, title: lesson.title, steps: lesson.steps });
    const content = canonicalJson(releaseContent.parse(frozen));
    const contentHash = createHash('sha256').update(content).digest('hex');
    const latest = await this.releases.latestOf(lessonId);
    await this.lessons.markReleased(lessonId, {
      releasedVersion: lesson.version,
      releasedSplitRevision: song.split.revision,
      releasedScoreVersion: song.scoreVersion,
      releasedPlayingVersion: song.playingVersion,
    });
    if (latest?.contentHash === contentHash) return latest;
    return this.store(by, lesson, {
      content,
      contentHash,
      number: (latest?.number ?? 0) + 1,
      songTitle: song.song.title,
    });
  }

  private async store(
    by: Person,
    lesson: LessonEntity,
    made: { content: string; contentHash: string; number: number; songTitle: string },
  ): Promise<ReleaseSummary> {
    const release = {
      id: this.clock.newId(),
      lessonId: lesson.id,
      courseId: lesson.courseId,
      title: lesson.title,
      schemaNumber: RELEASE_SCHEMA,
      pathSteps: pathStepsOf(lesson.steps),
      releasedBy: by.id,
      releasedAt: this.clock.now(),
      ...made,
    };
    await this.releases.insert(release);
    return release;
  }
}
