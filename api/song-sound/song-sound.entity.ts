import { Column, Entity, ForeignKey, PrimaryColumn } from 'typeorm';
import type { NamedMix, Playing } from '../../contract/index.ts';

/** A song's sound; there is none before somebody sets something. */
@Entity('song_sound')
export class SongSoundEntity {
  @PrimaryColumn('uuid', { name: 'song_id', primaryKeyConstraintName: 'song_sound_pk' })
  @ForeignKey('SongEntity', { name: 'song_sound_song_fk', onDelete: 'CASCADE' })
  songId: string;

  @Column('integer')
  version: number;

  /** Counts changes of `playing` alone: what lessons freeze. */
  @Column('integer', { name: 'playing_version' })
  playingVersion: number;

  @Column('jsonb')
  playing: Playing;

  @Column('jsonb')
  mixes: NamedMix[];
}
