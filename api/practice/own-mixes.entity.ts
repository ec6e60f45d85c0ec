import { Column, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';
import type { NamedMix } from '../../contract/index.ts';

/** Somebody's own mixes for a lesson, over all its releases. */
@Entity('own_mixes')
export class OwnMixesEntity {
  @PrimaryColumn('uuid', { name: 'person_id', primaryKeyConstraintName: 'own_mixes_pk' })
  @ForeignKey('PersonEntity', { name: 'own_mixes_person_fk', onDelete: 'CASCADE' })
  personId: string;

  @PrimaryColumn('uuid', { name: 'lesson_id', primaryKeyConstraintName: 'own_mixes_pk' })
  @ForeignKey('LessonEntity', { name: 'own_mixes_lesson_fk', onDelete: 'CASCADE' })
  @Index('own_mixes_lesson_index')
  lessonId: string;

  @Column('integer')
  version: number;

  @Column('jsonb')
  mixes: NamedMix[];
}
