import { Injectable } from '@nestjs/common';
import { ScoreVersionRepository } from '../scores/score-version.repository.ts';

const MOST_SCORES_KEPT = 32;

/** The notes that a song's present score has; the scores used last are kept in memory. */
@Injectable()
export class KnownNotes {
  private readonly kept = new Map<string, ReadonlySet<string>>();

  constructor(private readonly versions: ScoreVersionRepository) {}

  async of(songId: string): Promise<ReadonlySet<string>> {
    const versionId = await this.versions.latestIdOf(songId);
    if (versionId === null) return new Set();
    const known = this.kept.get(versionId) ?? (await this.load(songId));
    this.kept.delete(versionId);
    this.kept.set(versionId, known);
    const oldest = this.kept.keys().next();
    if (this.kept.size > MOST_SCORES_KEPT && oldest.done !== true) this.kept.delete(oldest.value);
    return known;
  }

  private async load(songId: string): Promise<ReadonlySet<string>> {
    return new Set(await this.versions.noteIdsOf(songId));
  }
}
