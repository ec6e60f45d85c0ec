import type { MigrationInterface, QueryRunner } from 'typeorm';

/** People and the sign-in library's tables, under names of our own. */
export class CreatePeople1795619800000 implements MigrationInterface {
  readonly name = 'CreatePeople1795619800000';

  async up(queryRunner: QueryRunner): Promise<void> {
    await queryRunner.query(`
      CREATE TABLE person (
        id uuid NOT NULL CONSTRAINT person_pk PRIMARY KEY,
        name text NOT NULL,
        email text NOT NULL CONSTRAINT person_email_unique UNIQUE,
        email_verified boolean NOT NULL,
        image text,
        created_at timestamptz NOT NULL,
        updated_at timestamptz NOT NULL
      );
      CREATE TABLE sign_in_session (
        id uuid NOT NULL CONSTRAINT sign_in_session_pk PRIMARY KEY,
        person_id uuid NOT NULL CONSTRAINT sign_in_session_person_fk REFERENCES person (id) ON DELETE CASCADE,
        token text NOT NULL CONSTRAINT sign_in_session_token_unique UNIQUE,
        expires_at timestamptz NOT NULL,
        ip_address text,
        user_agent text,
        created_at timestamptz NOT NULL,
        updated_at timestamptz NOT NULL
      );
      CREATE INDEX sign_in_session_person_index ON sign_in_session (person_id);
      CREATE TABLE sign_in_account (
        id uuid NOT NULL CONSTRAINT sign_in_account_pk PRIMARY KEY,
        person_id uuid NOT NULL CONSTRAINT sign_in_account_person_fk REFERENCES person (id) ON DELETE CASCADE,
        provider_id text NOT NULL,
        account_id text NOT NULL,
        password text,
        access_token text,
        refresh_token text,
        id_token text,
        access_token_expires_at timestamptz,
        refresh_token_expires_at timestamptz,
        scope text,
        created_at timestamptz NOT NULL,
        updated_at timestamptz NOT NULL
      );
      CREATE UNIQUE INDEX sign_in_account_person_index ON sign_in_account (person_id, provider_id);
      CREATE TABLE sign_in_verification (
        id uuid NOT NULL CONSTRAINT sign_in_verification_pk PRIMARY KEY,
        identifier text NOT NULL,
        value text NOT NULL,
        expires_at timestamptz NOT NULL,
        created_at timestamptz NOT NULL,
        updated_at timestamptz NOT NULL
      );
      CREATE INDEX sign_in_verification_identifier_index ON sign_in_verification (identifier);
    `);
  }

  async down(queryRunner: QueryRunner): Promise<void> {
    await queryRunner.query('DROP TABLE sign_in_verification, sign_in_account, sign_in_session, person');
  }
}
