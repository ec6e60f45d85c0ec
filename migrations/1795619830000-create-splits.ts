import type { MigrationInterface, QueryRunner } from 'typeorm';

/** The live split of a song: its lines, its marks and every operation in order. */
export class CreateSplits1795619830000 implements MigrationInterface {
  readonly name = 'CreateSplits1795619830000';

  async up(queryRunner: QueryRunner): Promise<void> {
    await queryRunner.query(`
      CREATE TABLE split (
        song_id uuid NOT NULL CONSTRAINT split_pk PRIMARY KEY CONSTRAINT split_song_fk REFERENCES song (id) ON DELETE CASCADE,
        revision integer NOT NULL
      );
      CREATE TABLE line (
        song_id uuid NOT NULL CONSTRAINT line_split_fk REFERENCES split (song_id) ON DELETE CASCADE,
        id text NOT NULL,
        name text NOT NULL,
        role text NOT NULL,
        dye text NOT NULL,
        letter text NOT NULL,
        order_key text COLLATE "C" NOT NULL,
        is_retired boolean NOT NULL,
        CONSTRAINT line_pk PRIMARY KEY (song_id, id)
      );
      CREATE TABLE mark (
        song_id uuid NOT NULL CONSTRAINT mark_split_fk REFERENCES split (song_id) ON DELETE CASCADE,
        note_id text NOT NULL,
        lines text[] NOT NULL,
        source text NOT NULL CONSTRAINT mark_source_known CHECK (source IN ('person', 'proposal')),
        confidence double precision,
        revision integer NOT NULL,
        CONSTRAINT mark_pk PRIMARY KEY (song_id, note_id)
      );
      CREATE TABLE split_operation (
        song_id uuid NOT NULL CONSTRAINT split_operation_split_fk REFERENCES split (song_id) ON DELETE CASCADE,
        revision integer NOT NULL,
        person_id uuid NOT NULL CONSTRAINT split_operation_person_fk REFERENCES person (id),
        operation_id text NOT NULL,
        base_revision integer NOT NULL,
        operation jsonb NOT NULL,
        made_at timestamptz NOT NULL,
        CONSTRAINT split_operation_pk PRIMARY KEY (song_id, revision),
        CONSTRAINT split_operation_unique UNIQUE (song_id, person_id, operation_id)
      );
    `);
  }

  async down(queryRunner: QueryRunner): Promise<void> {
    await queryRunner.query('DROP TABLE split_operation, mark, line, split');
  }
}
