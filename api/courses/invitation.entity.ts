import { Column, Entity, ForeignKey, Index, PrimaryColumn, Unique } from 'typeorm';

/** A way into a course for one address; the token itself is kept nowhere. */
@Entity('invitation')
@Unique('invitation_token_unique', ['tokenHash'])
export class InvitationEntity {
  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'invitation_pk' })
  id: string;

  @Column('uuid', { name: 'course_id' })
  @ForeignKey('CourseEntity', { name: 'invitation_course_fk', onDelete: 'CASCADE' })
  @Index('invitation_course_index')
  courseId: string;

  @Column('text')
  email: string;

  @Column('text', { name: 'token_hash' })
  tokenHash: string;

  @Column('uuid', { name: 'invited_by' })
  @ForeignKey('PersonEntity', { name: 'invitation_inviter_fk', onDelete: 'CASCADE' })
  invitedBy: string;

  @Column('timestamptz', { name: 'made_at' })
  madeAt: Date;

  @Column('timestamptz', { name: 'expires_at' })
  expiresAt: Date;

  @Column('timestamptz', { name: 'accepted_at', nullable: true })
  acceptedAt: Date | null;
}
