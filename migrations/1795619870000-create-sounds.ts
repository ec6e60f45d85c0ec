import type { MigrationInterface, QueryRunner } from 'typeorm';

/** How a song is played and its named mixes, and the mixes that people keep for themselves. */
export class CreateSounds1795619870000 implements MigrationInterface {
  readonly name = 'CreateSounds1795619870000';

  async up(queryRunner: QueryRunner): Promise<void> {
    await queryRunner.query(`
      CREATE TABLE song_sound (
        song_id uuid NOT NULL CONSTRAINT song_sound_pk PRIMARY KEY
          CONSTRAINT song_sound_song_fk REFERENCES song (id) ON DELETE CASCADE,
        version integer NOT NULL,
        playing_version integer NOT NULL,
        playing jsonb NOT NULL,
        mixes jsonb NOT NULL
      );
      CREATE TABLE own_mixes (
        person_id uuid NOT NULL CONSTRAINT own_mixes_person_fk REFERENCES person (id) ON DELETE CASCADE,
        lesson_id uuid NOT NULL CONSTRAINT own_mixes_lesson_fk REFERENCES lesson (id) ON DELETE CASCADE,
        version integer NOT NULL,
        mixes jsonb NOT NULL,
        CONSTRAINT own_mixes_pk PRIMARY KEY (person_id, lesson_id)
      );
      CREATE INDEX own_mixes_lesson_index ON own_mixes (lesson_id);
      ALTER TABLE lesson ADD COLUMN released_playing_version integer;
    `);
  }

  async down(queryRunner: QueryRunner): Promise<void> {
    await queryRunner.query(`
      ALTER TABLE lesson DROP COLUMN released_playing_version;
      DROP TABLE own_mixes, song_sound;
    `);
  }
}
