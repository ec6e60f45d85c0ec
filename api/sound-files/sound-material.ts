import { Injectable } from '@nestjs/common';
import { mixNamed, type HeardSoundFilesWish, type NamedMix, type SoundFilesWish } from '../../contract/index.ts';
import { Database } from '../database/database.ts';
import { DomainError } from '../errors/domain-error.ts';
import { fileStem } from '../exports/file-names.ts';
import type { Person } from '../people/person.ts';
import { ScoreVersionRepository } from '../scores/score-version.repository.ts';
import { SongAccess } from '../scores/song-access.ts';
import { SongSoundRepository } from '../song-sound/song-sound.repository.ts';
import { SplitsService } from '../splits/splits.service.ts';
import type { SoundJob } from '../workers/jobs.ts';

/** A mix said in full, by its name where it is wished for so. */
function mixIn(mixes: readonly NamedMix[], wished: SoundFilesWish['mix']): HeardSoundFilesWish['mix'] {
  if (!('name' in wished)) return wished;
  const mix = mixNamed(mixes, wished.name);
  if (mix === undefined)
    throw new DomainError('not-found', `This song has no mix called “${wished.name}”. Nothing was played.`);
  return { lines: mix.lines, forward: mix.forward };
}

/** What is rendered of a song, as it stands at one moment. */
@Injectable()
export class SoundMaterial {
  constructor(
    private readonly access: SongAccess,
    private readonly versions: ScoreVersionRepository,
    private readonly splits: SplitsService,
    private readonly sounds: SongSoundRepository,
    private readonly database: Database,
  ) {}

  /** The job and the name of its file. **Errors** `not-found` without a score, or without the mix that is named. */
  of(
    by: Person,
    songId: string,
    wish: SoundFilesWish,
  ): Promise<{ readonly name: string; readonly job: Omit<SoundJob, 'target'> }> {
    return this.database.snapshot(async () => {
      const song = await this.access.require(by, songId, 'song.see');
      const latest = await this.versions.latestOf(songId);
      const normalisedXml = latest === null ? null : await this.versions.normalisedXmlOf(latest.id);
      if (latest === null || normalisedXml === null)
        throw new DomainError('not-found', 'This song has no score yet, so there is nothing to play.');
      const { playing, mixes } = await this.sounds.of(songId);
      return {
        name: `${fileStem(song.title)}.${wish.files === 'mix' ? wish.format : 'zip'}`,
        job: {
          kind: 'sound',
          wish: { ...wish, mix: mixIn(mixes, wish.mix) },
          playing,
          normalisedXml,
          parts: song.arrangementParts ?? latest.arrangementParts,
          split: await this.splits.snapshot(by, songId),
        },
      };
    });
  }
}
