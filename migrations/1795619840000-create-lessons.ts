import type { MigrationInterface, QueryRunner } from 'typeorm';

/** Lessons as teachers edit them, and the releases that students read. */
export class CreateLessons1795619840000 implements MigrationInterface {
  readonly name = 'CreateLessons1795619840000';

  async up(queryRunner: QueryRunner): Promise<void> {
    await queryRunner.query(`
      CREATE TABLE lesson (
        id uuid NOT NULL CONSTRAINT lesson_pk PRIMARY KEY,
        course_id uuid NOT NULL CONSTRAINT lesson_course_fk REFERENCES course (id) ON DELETE CASCADE,
        song_id uuid NOT NULL CONSTRAINT lesson_song_fk REFERENCES song (id) ON DELETE CASCADE,
        title text NOT NULL,
        position integer NOT NULL,
        version integer NOT NULL,
        released_version integer,
        released_split_revision integer,
        released_score_version integer,
        steps jsonb NOT NULL,
        created_at timestamptz NOT NULL,
        retired_at timestamptz
      );
      CREATE INDEX lesson_course_index ON lesson (course_id, position);
      CREATE TABLE release (
        id uuid NOT NULL CONSTRAINT release_pk PRIMARY KEY,
        lesson_id uuid NOT NULL CONSTRAINT release_lesson_fk REFERENCES lesson (id) ON DELETE CASCADE,
        course_id uuid NOT NULL CONSTRAINT release_course_fk REFERENCES course (id) ON DELETE CASCADE,
        number integer NOT NULL,
        title text NOT NULL,
        song_title text NOT NULL,
        schema_number integer NOT NULL,
        path_steps jsonb NOT NULL,
        content text NOT NULL,
        content_hash text NOT NULL,
        released_by uuid NOT NULL CONSTRAINT release_person_fk REFERENCES person (id),
        released_at timestamptz NOT NULL,
        CONSTRAINT release_number_unique UNIQUE (lesson_id, number)
      );
      CREATE INDEX release_course_index ON release (course_id);
      CREATE FUNCTION refuse_release_change() RETURNS trigger LANGUAGE plpgsql AS $$
        BEGIN RAISE EXCEPTION 'a release is never changed'; END $$;
      CREATE TRIGGER release_is_frozen BEFORE UPDATE ON release FOR EACH ROW EXECUTE FUNCTION refuse_release_change();
    `);
  }

  async down(queryRunner: QueryRunner): Promise<void> {
    await queryRunner.query('DROP TABLE release, lesson; DROP FUNCTION refuse_release_change()');
  }
}
