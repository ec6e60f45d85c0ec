import { Check, Column, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';

@Entity('attempt')
@Index('attempt_release_person_index', ['releaseId', 'personId', 'at'])
@Check('attempt_outcome_known', `"outcome" IN ('heard', 'sang', 'nearly', 'notYet')`)
export class AttemptEntity {
  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'attempt_pk' })
  id: string;

  @Column('uuid', { name: 'release_id' })
  @ForeignKey('ReleaseEntity', { name: 'attempt_release_fk', onDelete: 'CASCADE' })
  releaseId: string;

  @Column('uuid', { name: 'person_id' })
  @ForeignKey('PersonEntity', { name: 'attempt_person_fk', onDelete: 'CASCADE' })
  personId: string;

  @Column('text', { name: 'step_id' })
  stepId: string;

  @Column('text', { name: 'path_step_id' })
  pathStepId: string;

  @Column('text')
  outcome: 'heard' | 'sang' | 'nearly' | 'notYet';

  @Column('timestamptz')
  at: Date;
}
