import { Injectable } from '@nestjs/common';
import type { Columns } from '../database/columns.ts';
import { Database } from '../database/database.ts';
import { ReleaseEntity } from './release.entity.ts';

/** A release without its content. */
export type ReleaseSummary = Omit<ReleaseEntity, 'content'>;

/** A released lesson beside another. */
export interface Neighbour {
  readonly id: string;
  readonly title: string;
}

@Injectable()
export class ReleaseRepository {
  constructor(private readonly database: Database) {}

  async insert(release: Columns<ReleaseEntity>): Promise<void> {
    await this.database.manager.insert(ReleaseEntity, release);
  }

  latestOf(lessonId: string): Promise<ReleaseSummary | null> {
    return this.database.manager.findOne(ReleaseEntity, { where: { lessonId }, order: { number: 'DESC' } });
  }

  /** A release whose lesson is not taken away. */
  async withId(id: string): Promise<ReleaseSummary | null> {
    return this.database.manager
      .createQueryBuilder(ReleaseEntity, 'release')
      .innerJoin('lesson', 'lesson', 'lesson.id = release.lesson_id AND lesson.retired_at IS NULL')
      .where('release.id = :id', { id })
      .getOne();
  }

  /** The content as the JSON text that its hash is over. */
  async contentOf(id: string): Promise<string | null> {
    const rows = await this.database.manager.query<{ content: string }[]>('SELECT content FROM release WHERE id = $1', [
      id,
    ]);
    return rows[0]?.content ?? null;
  }

  /** The latest releases of the course's lessons before and after one lesson. */
  async neighboursOf(
    courseId: string,
    lessonId: string,
  ): Promise<{ previous: Neighbour | null; next: Neighbour | null }> {
    const rows = await this.database.manager.query<(Neighbour & { lessonId: string })[]>(
      `SELECT latest.id, latest.title, lesson.id AS "lessonId"
         FROM lesson
         JOIN LATERAL (SELECT id, title FROM release WHERE release.lesson_id = lesson.id ORDER BY number DESC LIMIT 1) AS latest ON true
        WHERE lesson.course_id = $1 AND lesson.retired_at IS NULL ORDER BY lesson.position, lesson.id`,
      [courseId],
    );
    const at = rows.findIndex((row) => row.lessonId === lessonId);
    const told = (index: number): Neighbour | null => {
      const row = at < 0 ? undefined : rows[index];
      return row === undefined ? null : { id: row.id, title: row.title };
    };
    return { previous: told(at - 1), next: told(at + 1) };
  }
}
