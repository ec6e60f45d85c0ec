import type { MigrationInterface, QueryRunner } from 'typeorm';

/** What students tried. */
export class CreateAttempts1795619850000 implements MigrationInterface {
  readonly name = 'CreateAttempts1795619850000';

  async up(queryRunner: QueryRunner): Promise<void> {
    await queryRunner.query(`
      CREATE TABLE attempt (
        id uuid NOT NULL CONSTRAINT attempt_pk PRIMARY KEY,
        release_id uuid NOT NULL CONSTRAINT attempt_release_fk REFERENCES release (id) ON DELETE CASCADE,
        person_id uuid NOT NULL CONSTRAINT attempt_person_fk REFERENCES person (id) ON DELETE CASCADE,
        step_id text NOT NULL,
        path_step_id text NOT NULL,
        outcome text NOT NULL CONSTRAINT attempt_outcome_known CHECK (outcome IN ('heard', 'sang', 'nearly', 'notYet')),
        at timestamptz NOT NULL
      );
      CREATE INDEX attempt_release_person_index ON attempt (release_id, person_id, at);
    `);
  }

  async down(queryRunner: QueryRunner): Promise<void> {
    await queryRunner.query('DROP TABLE attempt');
  }
}
