import { Injectable } from '@nestjs/common';
import type { z } from 'zod';
import type { lessonChange, lessonDetail, lessonDraft, lessonOrder } from '../../contract/index.ts';
import { Clock } from '../clock/clock.ts';
import { CourseAccess } from '../courses/course-access.ts';
import type { Columns } from '../database/columns.ts';
import { withoutGaps } from '../database/without-gaps.ts';
import { DomainError } from '../errors/domain-error.ts';
import type { Person } from '../people/person.ts';
import { SongAccess } from '../scores/song-access.ts';
import { LessonAccess } from './lesson-access.ts';
import type { LessonEntity } from './lesson.entity.ts';
import { LessonRepository } from './lesson.repository.ts';
import { ReleaseRepository } from './release.repository.ts';

type Told = z.output<typeof lessonDetail>;

@Injectable()
export class LessonsService {
  constructor(
    private readonly lessons: LessonRepository,
    private readonly releases: ReleaseRepository,
    private readonly access: LessonAccess,
    private readonly songs: SongAccess,
    private readonly courses: CourseAccess,
    private readonly clock: Clock,
  ) {}

  async make(by: Person, songId: string, { title, steps }: z.output<typeof lessonDraft>): Promise<Told> {
    const { courseId } = await this.songs.require(by, songId, 'lesson.change');
    const lesson = {
      id: this.clock.newId(),
      courseId,
      songId,
      title,
      steps,
      version: 1,
      createdAt: this.clock.now(),
      retiredAt: null,
      releasedVersion: null,
      releasedSplitRevision: null,
      releasedScoreVersion: null,
      releasedPlayingVersion: null,
    };
    return this.told(await this.lessons.append(lesson));
  }

  async detail(by: Person, lessonId: string): Promise<Told> {
    return this.told(await this.access.require(by, lessonId, 'lesson.see'));
  }

  /** **Errors** `changed-meanwhile` where somebody else changed the lesson since `seenVersion`. */
  async change(
    by: Person,
    lessonId: string,
    change: z.output<typeof lessonChange>,
    seenVersion: number,
  ): Promise<Told> {
    await this.access.require(by, lessonId, 'lesson.change');
    if (!(await this.lessons.change(lessonId, withoutGaps(change), seenVersion))) {
      throw new DomainError(
        'changed-meanwhile',
        'Somebody else changed this lesson meanwhile. Nothing of yours was written; look at it again.',
      );
    }
    return this.detail(by, lessonId);
  }

  /** Takes the lesson away, with its releases; what students did is kept. */
  async remove(by: Person, lessonId: string): Promise<void> {
    await this.access.require(by, lessonId, 'lesson.change');
    await this.lessons.retire(lessonId, this.clock.now());
  }

  /** Puts all lessons of a course in a new order. **Errors** `changed-meanwhile` where these are not all its lessons. */
  async order(by: Person, courseId: string, { lessonIds }: z.output<typeof lessonOrder>): Promise<void> {
    await this.courses.require(by.id, courseId, 'lesson.change');
    if (!(await this.lessons.reorder(courseId, lessonIds))) {
      throw new DomainError(
        'changed-meanwhile',
        'The lessons of this course are others by now. Look at it again, then order them.',
      );
    }
  }

  private async told(lesson: Columns<LessonEntity>): Promise<Told> {
    const { id, courseId, songId, title, position, version, steps } = lesson;
    const latest = await this.releases.latestOf(id);
    const latestRelease =
      latest === null
        ? null
        : {
            id: latest.id,
            number: latest.number,
            releasedAt: latest.releasedAt.toISOString(),
            contentHash: latest.contentHash,
          };
    const hasChangesSinceRelease = latest !== null && (await this.lessons.hasChangedSinceRelease(id));
    return { id, courseId, songId, title, position, version, steps, latestRelease, hasChangesSinceRelease };
  }
}
