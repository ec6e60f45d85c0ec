import { Injectable } from '@nestjs/common';
import type { Columns } from '../database/columns.ts';
import { Database } from '../database/database.ts';
import { ScoreFileEntity } from './score-file.entity.ts';

/** A file by its song and its hash. */
export type ScoreFileKey = Pick<ScoreFileEntity, 'songId' | 'hash'>;

@Injectable()
export class ScoreFileRepository {
  constructor(private readonly database: Database) {}

  /** Keeps a file unless the song has it already. */
  async keep(file: Columns<ScoreFileEntity>): Promise<void> {
    await this.database.manager.createQueryBuilder().insert().into(ScoreFileEntity).values(file).orIgnore().execute();
  }

  async bytesOf({ songId, hash }: ScoreFileKey): Promise<Buffer | null> {
    const found = await this.database.manager.findOne(ScoreFileEntity, { where: { songId, hash } });
    return found?.bytes ?? null;
  }
}
