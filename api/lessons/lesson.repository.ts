import { Injectable } from '@nestjs/common';
import { IsNull } from 'typeorm';
import type { Columns } from '../database/columns.ts';
import { CHANGED_SINCE_RELEASE } from '../database/derived-columns.ts';
import { Database } from '../database/database.ts';
import { LessonEntity } from './lesson.entity.ts';

@Injectable()
export class LessonRepository {
  constructor(private readonly database: Database) {}

  /** Puts the lesson behind all others of its course. */
  append(lesson: Omit<LessonEntity, 'position'>): Promise<Columns<LessonEntity>> {
    return this.database.transaction(async () => {
      const { manager } = this.database;
      await manager.query('SELECT id FROM course WHERE id = $1 FOR UPDATE', [lesson.courseId]);
      const last = await manager.maximum(LessonEntity, 'position', { courseId: lesson.courseId });
      const placed = { ...lesson, position: (last ?? 0) + 1 };
      await manager.insert(LessonEntity, placed);
      return placed;
    });
  }

  /** A lesson that is not taken away. */
  withId(id: string): Promise<LessonEntity | null> {
    return this.database.manager.findOneBy(LessonEntity, { id, retiredAt: IsNull() });
  }

  /** The lesson, held until the transaction ends. */
  lock(id: string): Promise<LessonEntity | null> {
    return this.database.manager.findOne(LessonEntity, {
      where: { id, retiredAt: IsNull() },
      lock: { mode: 'pessimistic_write' },
    });
  }

  async hasChangedSinceRelease(id: string): Promise<boolean> {
    const rows = await this.database.manager.query<{ changed: boolean }[]>(
      `SELECT ${CHANGED_SINCE_RELEASE} AS changed FROM lesson WHERE lesson.id = $1`,
      [id],
    );
    return rows[0]?.changed ?? false;
  }

  /** Writes the change if the version is still the one that was seen; tells whether it was. */
  async change(
    id: string,
    change: Partial<Pick<LessonEntity, 'title' | 'steps'>>,
    seenVersion: number,
  ): Promise<boolean> {
    const where = { id, version: seenVersion, retiredAt: IsNull() };
    const result = await this.database.manager.update(LessonEntity, where, { ...change, version: seenVersion + 1 });
    return result.affected === 1;
  }

  async markReleased(
    id: string,
    released: Pick<
      LessonEntity,
      'releasedVersion' | 'releasedSplitRevision' | 'releasedScoreVersion' | 'releasedPlayingVersion'
    >,
  ): Promise<void> {
    await this.database.manager.update(LessonEntity, { id }, released);
  }

  async retire(id: string, at: Date): Promise<void> {
    await this.database.manager.update(LessonEntity, { id }, { retiredAt: at });
  }

  /** Writes a new order if these are all lessons of the course; tells whether they were. */
  reorder(courseId: string, ids: readonly string[]): Promise<boolean> {
    return this.database.transaction(async () => {
      const rows = await this.database.manager.query<{ id: string }[]>(
        'SELECT id FROM lesson WHERE course_id = $1 AND retired_at IS NULL FOR UPDATE',
        [courseId],
      );
      const present = new Set(rows.map(({ id }) => id));
      const isWhole =
        ids.length === present.size && new Set(ids).size === ids.length && ids.every((id) => present.has(id));
      if (isWhole) await this.writeOrder(ids);
      return isWhole;
    });
  }

  private async writeOrder(ids: readonly string[]): Promise<void> {
    await this.database.manager.query(
      `UPDATE lesson SET position = given.position
         FROM unnest($1::uuid[]) WITH ORDINALITY AS given (id, position) WHERE lesson.id = given.id`,
      [ids],
    );
  }
}
