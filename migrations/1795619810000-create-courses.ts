import type { MigrationInterface, QueryRunner } from 'typeorm';

/** Courses, who is in them, and the ways in. */
export class CreateCourses1795619810000 implements MigrationInterface {
  readonly name = 'CreateCourses1795619810000';

  async up(queryRunner: QueryRunner): Promise<void> {
    await queryRunner.query(`
      CREATE TABLE course (
        id uuid NOT NULL CONSTRAINT course_pk PRIMARY KEY,
        title text NOT NULL,
        summary text NOT NULL,
        version integer NOT NULL,
        created_at timestamptz NOT NULL
      );
      CREATE TABLE membership (
        course_id uuid NOT NULL CONSTRAINT membership_course_fk REFERENCES course (id) ON DELETE CASCADE,
        person_id uuid NOT NULL CONSTRAINT membership_person_fk REFERENCES person (id) ON DELETE CASCADE,
        role text NOT NULL CONSTRAINT membership_role_known CHECK (role IN ('owner', 'coTeacher', 'student')),
        joined_at timestamptz NOT NULL,
        CONSTRAINT membership_pk PRIMARY KEY (course_id, person_id)
      );
      CREATE INDEX membership_person_index ON membership (person_id);
      CREATE TABLE invitation (
        id uuid NOT NULL CONSTRAINT invitation_pk PRIMARY KEY,
        course_id uuid NOT NULL CONSTRAINT invitation_course_fk REFERENCES course (id) ON DELETE CASCADE,
        email text NOT NULL,
        token_hash text NOT NULL CONSTRAINT invitation_token_unique UNIQUE,
        invited_by uuid NOT NULL CONSTRAINT invitation_inviter_fk REFERENCES person (id) ON DELETE CASCADE,
        made_at timestamptz NOT NULL,
        expires_at timestamptz NOT NULL,
        accepted_at timestamptz
      );
      CREATE INDEX invitation_course_index ON invitation (course_id);
      CREATE TABLE enrolment_code (
        id uuid NOT NULL CONSTRAINT enrolment_code_pk PRIMARY KEY,
        course_id uuid NOT NULL CONSTRAINT enrolment_code_course_fk REFERENCES course (id) ON DELETE CASCADE,
        code_hash text NOT NULL CONSTRAINT enrolment_code_unique UNIQUE,
        made_by uuid NOT NULL CONSTRAINT enrolment_code_maker_fk REFERENCES person (id) ON DELETE CASCADE,
        made_at timestamptz NOT NULL,
        expires_at timestamptz NOT NULL
      );
      CREATE INDEX enrolment_code_course_index ON enrolment_code (course_id);
    `);
  }

  async down(queryRunner: QueryRunner): Promise<void> {
    await queryRunner.query('DROP TABLE enrolment_code, invitation, membership, course');
  }
}
