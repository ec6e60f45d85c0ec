import { Injectable } from '@nestjs/common';
import type { z } from 'zod';
import type { courseChange, courseDetail, courseDraft, shelf } from '../../contract/index.ts';
import { Clock } from '../clock/clock.ts';
import { Database } from '../database/database.ts';
import { withoutGaps } from '../database/without-gaps.ts';
import { DomainError, notFound } from '../errors/domain-error.ts';
import type { Person } from '../people/person.ts';
import { ContentsRepository } from './contents.repository.ts';
import { CourseAccess } from './course-access.ts';
import { CourseRepository } from './course.repository.ts';
import { MembershipRepository } from './membership.repository.ts';

/** A course with its version, which its ETag tells. */
export type VersionedCourse = z.input<typeof courseDetail> & { version: number };

@Injectable()
export class CoursesService {
  constructor(
    private readonly courses: CourseRepository,
    private readonly contents: ContentsRepository,
    private readonly memberships: MembershipRepository,
    private readonly access: CourseAccess,
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  async shelf(by: Person): Promise<z.input<typeof shelf>> {
    return { courses: await this.courses.coversOf(by.id) };
  }

  async make(by: Person, draft: z.output<typeof courseDraft>): Promise<VersionedCourse> {
    const id = this.clock.newId();
    const now = this.clock.now();
    await this.database.transaction(async () => {
      await this.courses.insert({ id, ...draft, version: 1, createdAt: now });
      await this.memberships.join({ courseId: id, personId: by.id, role: 'owner', joinedAt: now });
    });
    return this.detail(by, id);
  }

  async detail(by: Person, courseId: string): Promise<VersionedCourse> {
    const role = await this.access.require(by.id, courseId, 'course.see');
    const cover = await this.courses.coverOf(by.id, courseId);
    if (cover === null) throw notFound('course');
    const releases = await this.contents.releasesOf(courseId);
    if (role === 'student') return { ...cover, songs: [], lessons: [], releases };
    const [songs, lessons] = await Promise.all([this.contents.songsOf(courseId), this.contents.lessonsOf(courseId)]);
    return { ...cover, songs, lessons, releases };
  }

  /** **Errors** `changed-meanwhile` where somebody else changed the course since `seenVersion`. */
  async change(
    by: Person,
    courseId: string,
    change: z.output<typeof courseChange>,
    seenVersion: number | null,
  ): Promise<VersionedCourse> {
    await this.access.require(by.id, courseId, 'course.change');
    if (!(await this.courses.change(courseId, withoutGaps(change), seenVersion))) {
      throw new DomainError(
        'changed-meanwhile',
        'Somebody else changed this course meanwhile. Look at it again, then change it.',
      );
    }
    return this.detail(by, courseId);
  }
}
