import { Injectable } from '@nestjs/common';
import {
  lineId,
  noteId,
  type Line,
  type Mark,
  type NoteId,
  type OrderedOperation,
  type Split,
  type SplitEffect,
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

  async marksOf(songId: string, notes: readonly string[]): Promise<Map<NoteId, Mark>> {
    if (notes.length === 0) return new Map();
    const rows = await this.query<MarkRow>(
      `SELECT ${markColumns} FROM mark WHERE song_id = $1 AND note_id = ANY ($2)`,
      [songId, notes],
    );
    return new Map(rows.map(markOf));
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

  async operationWith(songId: string, personId: string, id: string): Promise<OrderedOperation | null> {
    const rows = await this.query<OrderedOperation>(
      `${storedOperations} WHERE made.song_id = $1 AND made.person_id = $2 AND made.operation_id = $3`,
      [songId, personId, id],
    );
    return rows[0] ?? null;
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

  /** Appends an operation and writes all that it does. */
  async write(songId: string, made: OrderedOperation, effect: SplitEffect, at: Date): Promise<void> {
    await this.query(
      `INSERT INTO split_operation (song_id, revision, person_id, operation_id, base_revision, operation, made_at)
       VALUES ($1, $2, $3, $4, $5, $6, $7)`,
      [songId, made.revision, made.by, made.id, made.baseRevision, JSON.stringify(made.operation), at],
    );
    await this.writeLines(songId, effect);
    await this.writeMarks(songId, effect);
    await this.query('UPDATE split SET revision = $2 WHERE song_id = $1', [songId, made.revision]);
  }

  private async writeLines(songId: string, { lines }: SplitEffect): Promise<void> {
    if (lines.length === 0) return;
    await this.query(
      `INSERT INTO line (song_id, id, name, role, dye, letter, order_key, is_retired)
       SELECT $1, id, name, role, dye, letter, "orderKey", "isRetired"
         FROM jsonb_to_recordset($2) AS given (id text, name text, role text, dye text, letter text, "orderKey" text, "isRetired" boolean)
       ON CONFLICT (song_id, id) DO UPDATE
         SET name = excluded.name, role = excluded.role, dye = excluded.dye, letter = excluded.letter,
             order_key = excluded.order_key, is_retired = excluded.is_retired`,
      [songId, JSON.stringify(lines)],
    );
  }

  private async writeMarks(songId: string, { marks }: SplitEffect): Promise<void> {
    if (marks.length === 0) return;
    const rows = marks.map(([note, mark]) => ({ note, ...mark }));
    await this.query(
      `INSERT INTO mark (song_id, note_id, lines, source, confidence, revision)
       SELECT $1, note, lines, "from", confidence, revision
         FROM jsonb_to_recordset($2) AS given (note text, lines text[], "from" text, confidence double precision, revision integer)
       ON CONFLICT (song_id, note_id) DO UPDATE
         SET lines = excluded.lines, source = excluded.source, confidence = excluded.confidence, revision = excluded.revision`,
      [songId, JSON.stringify(rows)],
    );
  }

  private query<Row>(sql: string, values: unknown[]): Promise<Row[]> {
    return this.database.manager.query<Row[]>(sql, values);
  }
}
