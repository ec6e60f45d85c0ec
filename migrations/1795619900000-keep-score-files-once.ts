import type { MigrationInterface, QueryRunner } from 'typeorm';

/** The bytes of a song's files, each once however often it was read; versions of the score point to them. */
export class KeepScoreFilesOnce1795619900000 implements MigrationInterface {
  readonly name = 'KeepScoreFilesOnce1795619900000';

  async up(queryRunner: QueryRunner): Promise<void> {
    await queryRunner.query(`
      CREATE TABLE score_file (
        song_id uuid NOT NULL CONSTRAINT score_file_song_fk REFERENCES song (id) ON DELETE CASCADE,
        hash text NOT NULL,
        bytes bytea NOT NULL,
        CONSTRAINT score_file_pk PRIMARY KEY (song_id, hash)
      );
      ALTER TABLE score_version ADD COLUMN file_hash text;
      UPDATE score_version SET file_hash = encode(sha256(original), 'hex');
      INSERT INTO score_file (song_id, hash, bytes)
        SELECT DISTINCT ON (song_id, file_hash) song_id, file_hash, original FROM score_version
         ORDER BY song_id, file_hash, version;
      ALTER TABLE score_version
        ALTER COLUMN file_hash SET NOT NULL,
        ADD CONSTRAINT score_version_file_fk FOREIGN KEY (song_id, file_hash)
          REFERENCES score_file (song_id, hash) ON DELETE CASCADE,
        DROP COLUMN original;
    `);
  }

  async down(queryRunner: QueryRunner): Promise<void> {
    await queryRunner.query(`
      ALTER TABLE score_version ADD COLUMN original bytea;
      UPDATE score_version SET original = score_file.bytes FROM score_file
       WHERE score_file.song_id = score_version.song_id AND score_file.hash = score_version.file_hash;
      ALTER TABLE score_version ALTER COLUMN original SET NOT NULL, DROP COLUMN file_hash;
      DROP TABLE score_file;
    `);
  }
}
