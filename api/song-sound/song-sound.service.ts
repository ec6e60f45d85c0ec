import { Injectable } from '@nestjs/common';
import type { SongSound } from '../../contract/index.ts';
import { DomainError } from '../errors/domain-error.ts';
import type { Person } from '../people/person.ts';
import { SongAccess } from '../scores/song-access.ts';
import { SongSoundRepository, type VersionedSound } from './song-sound.repository.ts';

/** How a song is played and mixed, kept by its teachers together. */
@Injectable()
export class SongSoundService {
  constructor(
    private readonly sounds: SongSoundRepository,
    private readonly songs: SongAccess,
  ) {}

  async detail(by: Person, songId: string): Promise<VersionedSound> {
    await this.songs.require(by, songId, 'song.see');
    return this.sounds.of(songId);
  }

  /** **Errors** `changed-meanwhile` where somebody else changed the sound since `seenVersion`. */
  async replace(by: Person, songId: string, sound: SongSound, seenVersion: number): Promise<VersionedSound> {
    await this.songs.require(by, songId, 'song.change');
    if (!(await this.sounds.replace(songId, sound, seenVersion))) {
      throw new DomainError(
        'changed-meanwhile',
        'Somebody else changed the sound of this song meanwhile. Nothing of yours was written; look at it again.',
      );
    }
    return this.sounds.of(songId);
  }
}
