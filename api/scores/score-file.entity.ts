import { Column, Entity, ForeignKey, PrimaryColumn } from 'typeorm';

/** A file of a song as it came, once however often it was read. It belongs to its song and goes with it. */
@Entity('score_file')
export class ScoreFileEntity {
  @PrimaryColumn('uuid', { name: 'song_id', primaryKeyConstraintName: 'score_file_pk' })
  @ForeignKey('SongEntity', { name: 'score_file_song_fk', onDelete: 'CASCADE' })
  songId: string;

  /** SHA-256 of the bytes, in hexadecimal. */
  @PrimaryColumn('text', { primaryKeyConstraintName: 'score_file_pk' })
  hash: string;

  @Column('bytea')
  bytes: Buffer;
}
