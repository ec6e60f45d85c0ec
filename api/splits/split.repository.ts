import { Injectable } from '@nestjs/common';
import {
  lineId,
  noteId,
  type Line,
  type Mark,
  type NoteId,
  type OrderedOperation,
  type Split,
} from '../../music/index.ts';
import { Database } from '../database/database.ts';

interface MarkRow {
  readonly note: string;
  readonly lines: string[];
  readonly from: 'person' | 'proposal';
  readonly confidence: number | null;
  readonly revision: number;
}

const storedOperations = `
  SELECT made.operation_id AS id, made.base_revision AS "baseRevision", made.operation, made.revision,
         made.person_id AS by, person.name AS "byName"
    FROM split_operation AS made JOIN person ON person.id = made.person_id`;
const markColumns = 'note_id AS note, lines, source AS "from", confidence, revision';

const markOf = ({ note, lines, from, confidence, revision }: MarkRow): [NoteId, Mark] => [
  noteId(note),
  { lines: lines.map(lineId), from, confidence, revision },
];

@Injectable()
export class SplitRepository {
  constructor(private readonly database: Database) {}

  /** The revision of a song's split, held until the transaction ends; null where there is none. */
  async lock(songId: string): Promise<number | null> {
    const rows = await this.query<{ revision: number }>('SELECT revision FROM split WHERE song_id = $1 FOR UPDATE', [
      songId,
    ]);
    return rows[0]?.revision ?? null;
  }

  async revisionOf(songId: string): Promise<number> {
    const rows = await this.query<{ revision: number }>('SELECT revision FROM split WHERE song_id = $1', [songId]);
    return rows[0]?.revision ?? 0;
  }

  async linesOf(songId: string): Promise<Line[]> {
    const rows = await this.query<Line>(
      `SELECT id, name, role, dye, letter, order_key AS "orderKey", is_retired AS "isRetired"
         FROM line WHERE song_id = $1 ORDER BY order_key, id`,
      [songId],
    );
    return rows.map((row) => ({ ...row, id: lineId(row.id) }));
  }

  /** The whole split at one moment. */
  async wholeOf(songId: string): Promise<Split> {
    return this.database.snapshot(async () => {
      const revision = await this.revisionOf(songId);
      const lines = await this.linesOf(songId);
      const rows = await this.query<MarkRow>(`SELECT ${markColumns} FROM mark WHERE song_id = $1 ORDER BY note_id`, [
        songId,
      ]);
      return { revision, lines, marks: new Map(rows.map(markOf)) };
    });
  }

  operationsAfter(songId: string, revision: number, limit: number): Promise<OrderedOperation[]> {
    return this.query<OrderedOperation>(
      `${storedOperations} WHERE made.song_id = $1 AND made.revision > $2 ORDER BY made.revision LIMIT $3`,
      [songId, revision, limit],
    );
  }

  /** How many characters of JSON the operations after a revision come to. */
  async sizeAfter(songId: string, revision: number): Promise<number> {
    const rows = await this.query<{ size: string | null }>(
      'SELECT sum(length(operation::text)) AS size FROM split_operation WHERE song_id = $1 AND revision > $2',
      [songId, revision],
    );
    return Number(rows[0]?.size ?? 0);
  }

  private query<Row>(sql: string, values: unknown[]): Promise<Row[]> {
    return this.database.manager.query<Row[]>(sql, values);
  }
}
