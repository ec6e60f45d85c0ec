import { Column, Entity, ForeignKey, PrimaryColumn, Unique } from 'typeorm';
import type { Operation } from '../../music/index.ts';

/** One operation in its place; only ever added. */
@Entity('split_operation')
@Unique('split_operation_unique', ['songId', 'personId', 'operationId'])
export class SplitOperationEntity {
  @PrimaryColumn('uuid', { name: 'song_id', primaryKeyConstraintName: 'split_operation_pk' })
  @ForeignKey('SplitEntity', { name: 'split_operation_split_fk', onDelete: 'CASCADE' })
  songId: string;

  @PrimaryColumn('integer', { primaryKeyConstraintName: 'split_operation_pk' })
  revision: number;

  @Column('uuid', { name: 'person_id' })
  @ForeignKey('PersonEntity', { name: 'split_operation_person_fk' })
  personId: string;

  @Column('text', { name: 'operation_id' })
  operationId: string;

  @Column('integer', { name: 'base_revision' })
  baseRevision: number;

  @Column('jsonb')
  operation: Operation;

  @Column('timestamptz', { name: 'made_at' })
  madeAt: Date;
}
