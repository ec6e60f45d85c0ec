import { Check, Column, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';
import type { CourseRole } from '../../contract/index.ts';

@Entity('membership')
@Check('membership_role_known', `"role" IN ('owner', 'coTeacher', 'student')`)
export class MembershipEntity {
  @PrimaryColumn('uuid', { name: 'course_id', primaryKeyConstraintName: 'membership_pk' })
  @ForeignKey('CourseEntity', { name: 'membership_course_fk', onDelete: 'CASCADE' })
  courseId: string;

  @PrimaryColumn('uuid', { name: 'person_id', primaryKeyConstraintName: 'membership_pk' })
  @ForeignKey('PersonEntity', { name: 'membership_person_fk', onDelete: 'CASCADE' })
  @Index('membership_person_index')
  personId: string;

  @Column('text')
  role: CourseRole;

  @Column('timestamptz', { name: 'joined_at' })
  joinedAt: Date;
}
