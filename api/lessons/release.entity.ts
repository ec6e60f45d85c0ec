import { Column, Entity, ForeignKey, Index, PrimaryColumn, Unique } from 'typeorm';

/** One step of a listening path, named within its release. */
export interface PathStepName {
  readonly stepId: string;
  readonly pathStepId: string;
}

/** A lesson frozen; the database refuses to change it. */
@Entity('release')
@Unique('release_number_unique', ['lessonId', 'number'])
export class ReleaseEntity {
  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'release_pk' })
  id: string;

  @Column('uuid', { name: 'lesson_id' })
  @ForeignKey('LessonEntity', { name: 'release_lesson_fk', onDelete: 'CASCADE' })
  lessonId: string;

  @Column('uuid', { name: 'course_id' })
  @ForeignKey('CourseEntity', { name: 'release_course_fk', onDelete: 'CASCADE' })
  @Index('release_course_index')
  courseId: string;

  @Column('integer')
  number: number;

  @Column('text')
  title: string;

  @Column('text', { name: 'song_title' })
  songTitle: string;

  @Column('integer', { name: 'schema_number' })
  schemaNumber: number;

  /** What can be tried in it. */
  @Column('jsonb', { name: 'path_steps' })
  pathSteps: PathStepName[];

  /** The content as canonical JSON: the bytes that the hash is over. */
  @Column('text', { select: false })
  content: string;

  @Column('text', { name: 'content_hash' })
  contentHash: string;

  @Column('uuid', { name: 'released_by' })
  @ForeignKey('PersonEntity', { name: 'release_person_fk' })
  releasedBy: string;

  @Column('timestamptz', { name: 'released_at' })
  releasedAt: Date;
}
