import { Injectable } from '@nestjs/common';
import type { CourseRole } from '../../contract/index.ts';
import type { Columns } from '../database/columns.ts';
import { Database } from '../database/database.ts';
import { CourseEntity } from './course.entity.ts';

/** A course with what its cover tells. */
export interface CourseCover {
  readonly id: string;
  readonly title: string;
  readonly summary: string;
  readonly version: number;
  readonly role: CourseRole;
  readonly songCount: number;
  readonly lessonCount: number;
  readonly releaseCount: number;
  readonly peopleCount: number;
}

const covers = `
  SELECT course.id, course.title, course.summary, course.version, membership.role,
         (SELECT count(*)::int FROM song WHERE song.course_id = course.id) AS "songCount",
         (SELECT count(*)::int FROM lesson WHERE lesson.course_id = course.id AND lesson.retired_at IS NULL) AS "lessonCount",
         (SELECT count(*)::int FROM lesson WHERE lesson.course_id = course.id AND lesson.retired_at IS NULL
             AND lesson.released_version IS NOT NULL) AS "releaseCount",
         (SELECT count(*)::int FROM membership AS other WHERE other.course_id = course.id) AS "peopleCount"
    FROM course JOIN membership ON membership.course_id = course.id AND membership.person_id = $1`;

@Injectable()
export class CourseRepository {
  constructor(private readonly database: Database) {}

  async insert(course: Columns<CourseEntity>): Promise<void> {
    await this.database.manager.insert(CourseEntity, course);
  }

  coversOf(personId: string): Promise<CourseCover[]> {
    return this.database.manager.query<CourseCover[]>(`${covers} ORDER BY course.created_at, course.id`, [personId]);
  }

  async coverOf(personId: string, courseId: string): Promise<CourseCover | null> {
    const rows = await this.database.manager.query<CourseCover[]>(`${covers} WHERE course.id = $2`, [
      personId,
      courseId,
    ]);
    return rows[0] ?? null;
  }

  async titleOf(courseId: string): Promise<string | null> {
    const course = await this.database.manager.findOne(CourseEntity, {
      where: { id: courseId },
      select: { id: true, title: true },
    });
    return course?.title ?? null;
  }

  /** Writes the change if the version is still the one that was seen; tells whether it was. */
  async change(
    courseId: string,
    change: Partial<Pick<CourseEntity, 'title' | 'summary'>>,
    seenVersion: number | null,
  ): Promise<boolean> {
    const where = seenVersion === null ? { id: courseId } : { id: courseId, version: seenVersion };
    const result = await this.database.manager.update(CourseEntity, where, { ...change, version: () => 'version + 1' });
    return result.affected === 1;
  }
}
