import { Injectable } from '@nestjs/common';
import type { z } from 'zod';
import type { scoreFingering } from '../../contract/index.ts';
import { DomainError } from '../errors/domain-error.ts';
import type { Person } from '../people/person.ts';
import { Workers } from '../workers/workers.ts';
import { ScoreVersionRepository } from './score-version.repository.ts';
import { SongAccess } from './song-access.ts';

/** Tells where a song's notes are played; what is proposed is worked out anew each time and kept nowhere. */
@Injectable()
export class FingeringService {
  constructor(
    private readonly versions: ScoreVersionRepository,
    private readonly access: SongAccess,
    private readonly workers: Workers,
  ) {}

  async of(by: Person, songId: string): Promise<z.input<typeof scoreFingering>> {
    const song = await this.access.require(by, songId, 'song.see');
    const latest = await this.versions.latestOf(songId);
    const normalisedXml = latest === null ? null : await this.versions.normalisedXmlOf(latest.id);
    if (latest === null || normalisedXml === null) throw new DomainError('not-found', 'This song has no score yet.');
    const parts = song.arrangementParts ?? latest.arrangementParts;
    const { notes, issues } = await this.workers.run({ kind: 'fingering', normalisedXml, parts });
    return { notes: [...notes], issues: [...issues] };
  }
}
