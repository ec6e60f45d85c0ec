import { Check, Column, Entity, ForeignKey, PrimaryColumn } from 'typeorm';

@Entity('mark')
@Check('mark_source_known', `"source" IN ('person', 'proposal')`)
export class MarkEntity {
  @PrimaryColumn('uuid', { name: 'song_id', primaryKeyConstraintName: 'mark_pk' })
  @ForeignKey('SplitEntity', { name: 'mark_split_fk', onDelete: 'CASCADE' })
  songId: string;

  @PrimaryColumn('text', { name: 'note_id', primaryKeyConstraintName: 'mark_pk' })
  noteId: string;

  @Column('text', { array: true })
  lines: string[];

  @Column('text')
  source: 'person' | 'proposal';

  @Column('double precision', { nullable: true })
  confidence: number | null;

  @Column('integer')
  revision: number;
}
