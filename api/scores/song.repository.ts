import { Injectable } from '@nestjs/common';
import type { Columns } from '../database/columns.ts';
import { Database } from '../database/database.ts';
import { LOOSE_NOTES } from '../database/derived-columns.ts';
import { SongEntity } from './song.entity.ts';

/** What of a song's split its page tells. */
export interface SplitState {
  readonly splitRevision: number;
  readonly lineCount: number;
}

@Injectable()
export class SongRepository {
  constructor(private readonly database: Database) {}

  /** Makes the song and its empty split. */
  async insert(song: Columns<SongEntity>): Promise<void> {
    await this.database.manager.insert(SongEntity, song);
    await this.database.manager.query('INSERT INTO split (song_id, revision) VALUES ($1, 0)', [song.id]);
  }

  withId(id: string): Promise<SongEntity | null> {
    return this.database.manager.findOneBy(SongEntity, { id });
  }

  /** The song, held until the transaction ends. */
  lock(id: string): Promise<SongEntity | null> {
    return this.database.manager.findOne(SongEntity, { where: { id }, lock: { mode: 'pessimistic_write' } });
  }

  async change(
    id: string,
    change: Partial<Pick<SongEntity, 'title' | 'composer' | 'arrangementParts'>>,
    seenVersion: number | null,
  ): Promise<boolean> {
    const where = seenVersion === null ? { id } : { id, version: seenVersion };
    const result = await this.database.manager.update(SongEntity, where, { ...change, version: () => 'version + 1' });
    return result.affected === 1;
  }

  /** What a new version of the score changes of its song; the song's own version grows with it. */
  async takeScore(
    id: string,
    next: Pick<SongEntity, 'nextNoteNumber' | 'nextBarNumber' | 'arrangementParts'>,
  ): Promise<void> {
    await this.database.manager.update(SongEntity, { id }, { ...next, version: () => 'version + 1' });
  }

  async splitStateOf(id: string): Promise<SplitState> {
    const rows = await this.database.manager.query<SplitState[]>(
      `SELECT split.revision AS "splitRevision",
              (SELECT count(*)::int FROM line WHERE line.song_id = split.song_id AND NOT line.is_retired) AS "lineCount"
         FROM split WHERE split.song_id = $1`,
      [id],
    );
    return rows[0] ?? { splitRevision: 0, lineCount: 0 };
  }

  /** Notes of the arrangement that are on no line. */
  async looseNoteCountOf(id: string): Promise<number> {
    const rows = await this.database.manager.query<{ count: number }[]>(
      `SELECT ${LOOSE_NOTES} AS count FROM song WHERE song.id = $1`,
      [id],
    );
    return rows[0]?.count ?? 0;
  }
}
