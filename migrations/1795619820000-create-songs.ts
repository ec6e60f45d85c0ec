import type { MigrationInterface, QueryRunner } from 'typeorm';

/** Songs and the versions of their scores. */
export class CreateSongs1795619820000 implements MigrationInterface {
  readonly name = 'CreateSongs1795619820000';

  async up(queryRunner: QueryRunner): Promise<void> {
    await queryRunner.query(`
      CREATE TABLE song (
        id uuid NOT NULL CONSTRAINT song_pk PRIMARY KEY,
        course_id uuid NOT NULL CONSTRAINT song_course_fk REFERENCES course (id) ON DELETE CASCADE,
        title text NOT NULL,
        composer text NOT NULL,
        arrangement_parts text[],
        next_note_number integer NOT NULL,
        next_bar_number integer NOT NULL,
        version integer NOT NULL,
        created_at timestamptz NOT NULL
      );
      CREATE INDEX song_course_index ON song (course_id);
      CREATE TABLE score_version (
        id uuid NOT NULL CONSTRAINT score_version_pk PRIMARY KEY,
        song_id uuid NOT NULL CONSTRAINT score_version_song_fk REFERENCES song (id) ON DELETE CASCADE,
        version integer NOT NULL,
        file_name text NOT NULL,
        original bytea NOT NULL,
        byte_count integer NOT NULL,
        normalised_xml text NOT NULL,
        normalised_hash text NOT NULL,
        facts jsonb NOT NULL,
        issues jsonb NOT NULL,
        note_ids jsonb NOT NULL,
        arrangement_parts text[] NOT NULL,
        uploaded_by uuid NOT NULL CONSTRAINT score_version_person_fk REFERENCES person (id),
        uploaded_at timestamptz NOT NULL,
        CONSTRAINT score_version_unique UNIQUE (song_id, version)
      );
    `);
  }

  async down(queryRunner: QueryRunner): Promise<void> {
    await queryRunner.query('DROP TABLE score_version, song');
  }
}
