import type { MigrationInterface, QueryRunner } from 'typeorm';

/** How each version of a score was read, and what else could be chosen; unknown for versions from before. */
export class AddScoreReadings1795619880000 implements MigrationInterface {
  readonly name = 'AddScoreReadings1795619880000';

  async up(queryRunner: QueryRunner): Promise<void> {
    await queryRunner.query('ALTER TABLE score_version ADD COLUMN reading jsonb');
  }

  async down(queryRunner: QueryRunner): Promise<void> {
    await queryRunner.query('ALTER TABLE score_version DROP COLUMN reading');
  }
}
