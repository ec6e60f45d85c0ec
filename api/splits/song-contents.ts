import { Injectable } from '@nestjs/common';
import type { Playing } from '../../contract/index.ts';
import type { Split } from '../../music/index.ts';
import { ScoreVersionRepository } from '../scores/score-version.repository.ts';
import { SongRepository } from '../scores/song.repository.ts';
import { SongSoundRepository } from '../song-sound/song-sound.repository.ts';
import { SplitRepository } from './split.repository.ts';

/** A song's score and split as they stand at one moment. */
export interface SongContent {
  readonly song: { readonly title: string; readonly composer: string };
  readonly scoreVersion: number;
  readonly musicXml: string;
  readonly arrangementParts: readonly string[];
  /** The notes of those parts. */
  readonly notes: ReadonlySet<string>;
  readonly split: Split;
  readonly playing: Playing;
  readonly playingVersion: number;
}

/** Reads all that a release freezes of a song; who may is checked by the caller. */
@Injectable()
export class SongContents {
  constructor(
    private readonly songs: SongRepository,
    private readonly versions: ScoreVersionRepository,
    private readonly splits: SplitRepository,
    private readonly sounds: SongSoundRepository,
  ) {}

  /** Null before the song has a score. */
  async of(songId: string): Promise<SongContent | null> {
    const song = await this.songs.lock(songId);
    await this.splits.lock(songId);
    const latest = await this.versions.latestOf(songId);
    if (song === null || latest === null) return null;
    const musicXml = await this.versions.normalisedXmlOf(latest.id);
    if (musicXml === null) return null;
    const arrangementParts = song.arrangementParts ?? latest.arrangementParts;
    const { title, composer } = song;
    const { playing, playingVersion } = await this.sounds.of(songId);
    return {
      song: { title, composer },
      scoreVersion: latest.version,
      musicXml,
      arrangementParts,
      notes: new Set(await this.versions.noteIdsOf(latest.id, arrangementParts)),
      split: await this.splits.wholeOf(songId),
      playing,
      playingVersion,
    };
  }
}
