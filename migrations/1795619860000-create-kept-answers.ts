import type { MigrationInterface, QueryRunner } from 'typeorm';

/** Answers that are given again where the same request comes again under its key. */
export class CreateKeptAnswers1795619860000 implements MigrationInterface {
  readonly name = 'CreateKeptAnswers1795619860000';

  async up(queryRunner: QueryRunner): Promise<void> {
    await queryRunner.query(`
      CREATE TABLE kept_answer (
        person_id uuid NOT NULL CONSTRAINT kept_answer_person_fk REFERENCES person (id) ON DELETE CASCADE,
        key text NOT NULL,
        request_hash text NOT NULL,
        answer jsonb,
        made_at timestamptz NOT NULL,
        CONSTRAINT kept_answer_pk PRIMARY KEY (person_id, key)
      );
      CREATE INDEX kept_answer_made_index ON kept_answer (made_at);
    `);
  }

  async down(queryRunner: QueryRunner): Promise<void> {
    await queryRunner.query('DROP TABLE kept_answer');
  }
}
