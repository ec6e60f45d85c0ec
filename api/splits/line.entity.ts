import { Column, Entity, ForeignKey, PrimaryColumn } from 'typeorm';
import type { Dye, LineRole } from '../../music/index.ts';

@Entity('line')
export class LineEntity {
  @PrimaryColumn('uuid', { name: 'song_id', primaryKeyConstraintName: 'line_pk' })
  @ForeignKey('SplitEntity', { name: 'line_split_fk', onDelete: 'CASCADE' })
  songId: string;

  @PrimaryColumn('text', { primaryKeyConstraintName: 'line_pk' })
  id: string;

  @Column('text')
  name: string;

  @Column('text')
  role: LineRole;

  @Column('text')
  dye: Dye;

  @Column('text')
  letter: string;

  @Column({ type: 'text', name: 'order_key', collation: 'C' })
  orderKey: string;

  @Column('boolean', { name: 'is_retired' })
  isRetired: boolean;
}
