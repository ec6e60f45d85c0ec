import { Column, Entity, PrimaryColumn } from 'typeorm';

@Entity('course')
export class CourseEntity {
  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'course_pk' })
  id: string;

  @Column('text')
  title: string;

  @Column('text')
  summary: string;

  @Column('integer')
  version: number;

  @Column('timestamptz', { name: 'created_at' })
  createdAt: Date;
}
