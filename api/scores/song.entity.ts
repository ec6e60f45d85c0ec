import { Column, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';

@Entity('song')
export class SongEntity {
  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'song_pk' })
  id: string;

  @Column('uuid', { name: 'course_id' })
  @ForeignKey('CourseEntity', { name: 'song_course_fk', onDelete: 'CASCADE' })
  @Index('song_course_index')
  courseId: string;

  @Column('text')
  title: string;

  @Column('text')
  composer: string;

  /** The parts that the teacher chose to split; null while the file's own choice stands. */
  @Column('text', { name: 'arrangement_parts', array: true, nullable: true })
  arrangementParts: string[] | null;

  /** The numbers that the next note and bar of this song are named with; never given twice. */
  @Column('integer', { name: 'next_note_number' })
  nextNoteNumber: number;

  @Column('integer', { name: 'next_bar_number' })
  nextBarNumber: number;

  @Column('integer')
  version: number;

  @Column('timestamptz', { name: 'created_at' })
  createdAt: Date;
}
