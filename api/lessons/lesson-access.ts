import { Injectable } from '@nestjs/common';
import { CourseAccess } from '../courses/course-access.ts';
import type { Permission } from '../courses/permissions.ts';
import { notFound } from '../errors/domain-error.ts';
import type { Person } from '../people/person.ts';
import type { LessonEntity } from './lesson.entity.ts';
import { LessonRepository } from './lesson.repository.ts';
import { ReleaseRepository, type ReleaseSummary } from './release.repository.ts';

/** The check that every method about one lesson or release begins with. */
@Injectable()
export class LessonAccess {
  constructor(
    private readonly lessons: LessonRepository,
    private readonly releases: ReleaseRepository,
    private readonly access: CourseAccess,
  ) {}

  /** The lesson. **Errors** `not-found` for a stranger, `not-permitted` for a member without the permission. */
  async require(by: Person, lessonId: string, permission: Permission): Promise<LessonEntity> {
    const lesson = await this.lessons.withId(lessonId);
    if (lesson === null) throw notFound('lesson');
    await this.access.require(by.id, lesson.courseId, permission, 'lesson');
    return lesson;
  }

  /** The release. **Errors** as for lessons. */
  async requireRelease(by: Person, releaseId: string, permission: Permission): Promise<ReleaseSummary> {
    const release = await this.releases.withId(releaseId);
    if (release === null) throw notFound('lesson');
    await this.access.require(by.id, release.courseId, permission, 'lesson');
    return release;
  }
}
