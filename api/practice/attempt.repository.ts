import { Injectable } from '@nestjs/common';
import type { Columns } from '../database/columns.ts';
import { Database } from '../database/database.ts';
import { AttemptEntity } from './attempt.entity.ts';

/** A released lesson in the table of progress. */
export interface ReleasedLesson {
  readonly lessonId: string;
  readonly title: string;
  readonly position: number;
  readonly releaseId: string;
  readonly pathStepCount: number;
}

/** The latest try of one student at one path step, with how many tries there were. */
export interface LatestTry {
  readonly personId: string;
  readonly lessonId: string;
  readonly stepId: string;
  readonly pathStepId: string;
  readonly outcome: AttemptEntity['outcome'];
  readonly at: Date;
  readonly count: number;
}

@Injectable()
export class AttemptRepository {
  constructor(private readonly database: Database) {}

  async insert(attempt: Columns<AttemptEntity>): Promise<void> {
    await this.database.manager.insert(AttemptEntity, attempt);
  }

  of(personId: string, releaseId: string): Promise<AttemptEntity[]> {
    return this.database.manager.find(AttemptEntity, {
      where: { personId, releaseId },
      order: { at: 'ASC', id: 'ASC' },
    });
  }

  lessonsOf(courseId: string): Promise<ReleasedLesson[]> {
    return this.database.manager.query<ReleasedLesson[]>(
      `SELECT lesson.id AS "lessonId", latest.title, lesson.position, latest.id AS "releaseId",
              jsonb_array_length(latest.path_steps) AS "pathStepCount"
         FROM lesson
         JOIN LATERAL (SELECT * FROM release WHERE release.lesson_id = lesson.id ORDER BY number DESC LIMIT 1) AS latest ON true
        WHERE lesson.course_id = $1 AND lesson.retired_at IS NULL ORDER BY lesson.position, lesson.id`,
      [courseId],
    );
  }

  /** Tries of present students at lessons that are not taken away, over all releases. */
  latestOf(courseId: string): Promise<LatestTry[]> {
    return this.database.manager.query<LatestTry[]>(
      `SELECT DISTINCT ON (attempt.person_id, release.lesson_id, attempt.step_id, attempt.path_step_id)
              attempt.person_id AS "personId", release.lesson_id AS "lessonId", attempt.step_id AS "stepId",
              attempt.path_step_id AS "pathStepId", attempt.outcome, attempt.at,
              (count(*) OVER (PARTITION BY attempt.person_id, release.lesson_id, attempt.step_id, attempt.path_step_id))::int AS count
         FROM attempt
         JOIN release ON release.id = attempt.release_id AND release.course_id = $1
         JOIN lesson ON lesson.id = release.lesson_id AND lesson.retired_at IS NULL
         JOIN membership ON membership.course_id = $1 AND membership.person_id = attempt.person_id AND membership.role = 'student'
        ORDER BY attempt.person_id, release.lesson_id, attempt.step_id, attempt.path_step_id, attempt.at DESC, attempt.id DESC`,
      [courseId],
    );
  }
}
