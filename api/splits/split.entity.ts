import { Column, Entity, ForeignKey, PrimaryColumn } from 'typeorm';

/** The live split of a song; its row is the lock that puts operations in order. */
@Entity('split')
export class SplitEntity {
  @PrimaryColumn('uuid', { name: 'song_id', primaryKeyConstraintName: 'split_pk' })
  @ForeignKey('SongEntity', { name: 'split_song_fk', onDelete: 'CASCADE' })
  songId: string;

  @Column('integer')
  revision: number;
}
