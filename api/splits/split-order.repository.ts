import { Injectable } from '@nestjs/common';
import type { CourseRole } from '../../contract/index.ts';
import {
  lineId,
  noteId,
  notesOfOperation,
  type Line,
  type Mark,
  type NoteId,
  type OrderedOperation,
  type SplitEffect,
  type Submission,
} from '../../music/index.ts';
import { Database } from '../database/database.ts';

/** A split that is held until the transaction ends, with what its author may and what it is about. */
export interface HeldSplit {
  readonly revision: number;
  /** What the author is in the song's course; null for a stranger. */
  readonly role: CourseRole | null;
  /** The latest version of the score; null without one. */
  readonly scoreVersionId: string | null;
}

/** What a submission meets. */
export interface Present {
  readonly lines: readonly Line[];
  /** The marks of the notes that the submission tells of. */
  readonly marks: ReadonlyMap<NoteId, Mark>;
  /** What the same author sent under the same id before. */
  readonly first: OrderedOperation | null;
}

type MarkRow = Mark & { readonly note: string };

interface PresentRow {
  readonly lines: readonly Line[] | null;
  readonly marks: readonly MarkRow[] | null;
  readonly first: OrderedOperation | null;
}

const holding = `
  SELECT split.revision, membership.role,
         (SELECT id FROM score_version WHERE song_id = split.song_id ORDER BY version DESC LIMIT 1) AS "scoreVersionId"
    FROM split
    JOIN song ON song.id = split.song_id
    LEFT JOIN membership ON membership.course_id = song.course_id AND membership.person_id = $2
   WHERE split.song_id = $1
     FOR UPDATE OF split`;

const presenting = `
  SELECT (SELECT json_agg(json_build_object('id', id, 'name', name, 'role', role, 'dye', dye, 'letter', letter,
                                            'orderKey', order_key, 'isRetired', is_retired) ORDER BY order_key, id)
            FROM line WHERE song_id = $1) AS lines,
         (SELECT json_agg(json_build_object('note', note_id, 'lines', lines, 'from', source,
                                            'confidence', confidence, 'revision', revision))
            FROM mark WHERE song_id = $1 AND note_id = ANY ($4)) AS marks,
         (SELECT json_build_object('id', made.operation_id, 'baseRevision', made.base_revision, 'operation', made.operation,
                                   'revision', made.revision, 'by', made.person_id, 'byName', person.name)
            FROM split_operation AS made JOIN person ON person.id = made.person_id
           WHERE made.song_id = $1 AND made.person_id = $2 AND made.operation_id = $3) AS first`;

/** One statement, so that an operation costs one round trip to write. */
const writing = `
  WITH appended AS (
    INSERT INTO split_operation (song_id, revision, person_id, operation_id, base_revision, operation, made_at)
    VALUES ($1, $2, $3, $4, $5, $6, $7)
  ), written_lines AS (
    INSERT INTO line (song_id, id, name, role, dye, letter, order_key, is_retired)
    SELECT $1, id, name, role, dye, letter, "orderKey", "isRetired"
      FROM jsonb_to_recordset($8) AS given (id text, name text, role text, dye text, letter text, "orderKey" text, "isRetired" boolean)
    ON CONFLICT (song_id, id) DO UPDATE
      SET name = excluded.name, role = excluded.role, dye = excluded.dye, letter = excluded.letter,
          order_key = excluded.order_key, is_retired = excluded.is_retired
  ), written_marks AS (
    INSERT INTO mark (song_id, note_id, lines, source, confidence, revision)
    SELECT $1, note, lines, "from", confidence, revision
      FROM jsonb_to_recordset($9) AS given (note text, lines text[], "from" text, confidence double precision, revision integer)
    ON CONFLICT (song_id, note_id) DO UPDATE
      SET lines = excluded.lines, source = excluded.source, confidence = excluded.confidence, revision = excluded.revision
  )
  UPDATE split SET revision = $2 WHERE song_id = $1`;

/** What putting operations in order needs of the database, in as few round trips as it can. */
@Injectable()
export class SplitOrderRepository {
  constructor(private readonly database: Database) {}

  /** Null where the song is not there. */
  async hold(songId: string, personId: string): Promise<HeldSplit | null> {
    const rows = await this.query<HeldSplit>(holding, [songId, personId]);
    return rows[0] ?? null;
  }

  async presentFor(songId: string, personId: string, { id, operation }: Submission): Promise<Present> {
    const [row] = await this.query<PresentRow>(presenting, [songId, personId, id, notesOfOperation(operation)]);
    return {
      lines: (row?.lines ?? []).map((line) => ({ ...line, id: lineId(line.id) })),
      marks: new Map((row?.marks ?? []).map(({ note, ...mark }): [NoteId, Mark] => [noteId(note), mark])),
      first: row?.first ?? null,
    };
  }

  /** Appends an operation and writes all that it does. */
  async write(songId: string, made: OrderedOperation, { lines, marks }: SplitEffect, at: Date): Promise<void> {
    const rows = marks.map(([note, mark]) => ({ note, ...mark }));
    const { revision, by, id, baseRevision, operation } = made;
    const texts = [JSON.stringify(lines), JSON.stringify(rows)];
    await this.query(writing, [songId, revision, by, id, baseRevision, JSON.stringify(operation), at, ...texts]);
  }

  private query<Row>(sql: string, values: unknown[]): Promise<Row[]> {
    return this.database.manager.query<Row[]>(sql, values);
  }
}
