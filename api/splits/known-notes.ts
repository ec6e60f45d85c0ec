import { Injectable } from '@nestjs/common';
import { ScoreVersionRepository } from '../scores/score-version.repository.ts';

const MOST_SCORES_KEPT = 32;

/** The notes that a version of a score has; the scores used last are kept in memory. */
@Injectable()
export class KnownNotes {
  private readonly kept = new Map<string, ReadonlySet<string>>();

  constructor(private readonly versions: ScoreVersionRepository) {}

  async of(versionId: string | null): Promise<ReadonlySet<string>> {
    if (versionId === null) return new Set();
    const known = this.kept.get(versionId) ?? (await this.load(versionId));
    this.kept.delete(versionId);
    this.kept.set(versionId, known);
    const oldest = this.kept.keys().next();
    if (this.kept.size > MOST_SCORES_KEPT && oldest.done !== true) this.kept.delete(oldest.value);
    return known;
  }

  private async load(versionId: string): Promise<ReadonlySet<string>> {
    return new Set(await this.versions.noteIdsOf(versionId));
  }
}
