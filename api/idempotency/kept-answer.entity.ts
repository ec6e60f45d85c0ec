import { Column, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';

/** The answer to one person's request under its key; none yet while the request is being worked on. */
@Entity('kept_answer')
export class KeptAnswerEntity {
  @PrimaryColumn('uuid', { name: 'person_id', primaryKeyConstraintName: 'kept_answer_pk' })
  @ForeignKey('PersonEntity', { name: 'kept_answer_person_fk', onDelete: 'CASCADE' })
  personId: string;

  @PrimaryColumn('text', { primaryKeyConstraintName: 'kept_answer_pk' })
  key: string;

  @Column('text', { name: 'request_hash' })
  requestHash: string;

  @Column('jsonb', { nullable: true })
  answer: object | null;

  @Column('timestamptz', { name: 'made_at' })
  @Index('kept_answer_made_index')
  madeAt: Date;
}
