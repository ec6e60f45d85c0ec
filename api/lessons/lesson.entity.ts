import { Column, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';
import type { LessonStep } from '../../contract/index.ts';

@Entity('lesson')
@Index('lesson_course_index', ['courseId', 'position'])
export class LessonEntity {
  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'lesson_pk' })
  id: string;

  @Column('uuid', { name: 'course_id' })
  @ForeignKey('CourseEntity', { name: 'lesson_course_fk', onDelete: 'CASCADE' })
  courseId: string;

  @Column('uuid', { name: 'song_id' })
  @ForeignKey('SongEntity', { name: 'lesson_song_fk', onDelete: 'CASCADE' })
  songId: string;

  @Column('text')
  title: string;

  /** Place among the course's lessons, from 1. */
  @Column('integer')
  position: number;

  @Column('integer')
  version: number;

  /** The version that the latest release froze. */
  @Column('integer', { name: 'released_version', nullable: true })
  releasedVersion: number | null;

  /** The split's revision and the score's version that the latest release froze. */
  @Column('integer', { name: 'released_split_revision', nullable: true })
  releasedSplitRevision: number | null;

  @Column('integer', { name: 'released_score_version', nullable: true })
  releasedScoreVersion: number | null;

  /** The version of how the song is played that the latest release froze. */
  @Column('integer', { name: 'released_playing_version', nullable: true })
  releasedPlayingVersion: number | null;

  @Column('jsonb')
  steps: LessonStep[];

  @Column('timestamptz', { name: 'created_at' })
  createdAt: Date;

  /** When the lesson was taken away; its releases then are out of reach, and kept. */
  @Column('timestamptz', { name: 'retired_at', nullable: true })
  retiredAt: Date | null;
}
