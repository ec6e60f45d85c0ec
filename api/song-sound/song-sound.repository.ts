import { isDeepStrictEqual } from 'node:util';
import { Injectable } from '@nestjs/common';
import { plainPlaying, type SongSound } from '../../contract/index.ts';
import type { Columns } from '../database/columns.ts';
import { Database } from '../database/database.ts';
import { SongSoundEntity } from './song-sound.entity.ts';

/** A song's sound at a version; version 0 is that of a song whose sound nobody has touched. */
export type VersionedSound = Omit<Columns<SongSoundEntity>, 'songId'>;

const untouched: VersionedSound = { version: 0, playingVersion: 0, playing: plainPlaying, mixes: [] };

@Injectable()
export class SongSoundRepository {
  constructor(private readonly database: Database) {}

  async of(songId: string): Promise<VersionedSound> {
    return (await this.database.manager.findOneBy(SongSoundEntity, { songId })) ?? untouched;
  }

  /** Writes the sound if the version is still the one that was seen; tells whether it was. */
  replace(songId: string, sound: SongSound, seenVersion: number): Promise<boolean> {
    return this.database.transaction(async () => {
      await this.database.manager.query('SELECT id FROM song WHERE id = $1 FOR UPDATE', [songId]);
      const { version, playingVersion, playing } = await this.of(songId);
      if (version !== seenVersion) return false;
      const isPlayedAsBefore = isDeepStrictEqual(playing, sound.playing);
      await this.database.manager.upsert(
        SongSoundEntity,
        { songId, version: version + 1, playingVersion: playingVersion + (isPlayedAsBefore ? 0 : 1), ...sound },
        ['songId'],
      );
      return true;
    });
  }
}
