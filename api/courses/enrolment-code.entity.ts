import { Column, Entity, ForeignKey, Index, PrimaryColumn, Unique } from 'typeorm';

/** A way into a course for students; the code itself is kept nowhere. */
@Entity('enrolment_code')
@Unique('enrolment_code_unique', ['codeHash'])
export class EnrolmentCodeEntity {
  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'enrolment_code_pk' })
  id: string;

  @Column('uuid', { name: 'course_id' })
  @ForeignKey('CourseEntity', { name: 'enrolment_code_course_fk', onDelete: 'CASCADE' })
  @Index('enrolment_code_course_index')
  courseId: string;

  @Column('text', { name: 'code_hash' })
  codeHash: string;

  @Column('uuid', { name: 'made_by' })
  @ForeignKey('PersonEntity', { name: 'enrolment_code_maker_fk', onDelete: 'CASCADE' })
  madeBy: string;

  @Column('timestamptz', { name: 'made_at' })
  madeAt: Date;

  @Column('timestamptz', { name: 'expires_at' })
  expiresAt: Date;
}
