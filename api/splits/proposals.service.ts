import { Injectable } from '@nestjs/common';
import type { z } from 'zod';
import type { proposal, proposalDraft } from '../../contract/index.ts';
import { noteId, snapshotOf } from '../../music/index.ts';
import { Clock } from '../clock/clock.ts';
import { DomainError } from '../errors/domain-error.ts';
import type { Person } from '../people/person.ts';
import { ScoreVersionRepository } from '../scores/score-version.repository.ts';
import { SongAccess } from '../scores/song-access.ts';
import { Workers } from '../workers/workers.ts';
import { SplitRepository } from './split.repository.ts';

const MOST_NEW_LINES = 12;

@Injectable()
export class ProposalsService {
  constructor(
    private readonly repository: SplitRepository,
    private readonly versions: ScoreVersionRepository,
    private readonly access: SongAccess,
    private readonly workers: Workers,
    private readonly clock: Clock,
  ) {}

  /** Whether a version of the score is the present one, and no note of its arrangement is on a line. */
  async isBlank(by: Person, songId: string, version: number): Promise<boolean> {
    const song = await this.access.require(by, songId, 'split.mark');
    const latest = await this.versions.latestOf(songId);
    if (latest?.version !== version) return false;
    const notes = await this.versions.noteIdsOf(latest.id, song.arrangementParts ?? latest.arrangementParts);
    const { marks } = await this.repository.wholeOf(songId);
    return notes.every((note) => (marks.get(noteId(note))?.lines ?? []).length === 0);
  }

  /** What a new proposal would do to the split as it stands; nothing is changed. **Errors** `nothing-to-split`. */
  async propose(
    by: Person,
    songId: string,
    { lineCount }: z.output<typeof proposalDraft>,
  ): Promise<z.output<typeof proposal>> {
    const song = await this.access.require(by, songId, 'split.mark');
    const latest = await this.versions.latestOf(songId);
    const normalisedXml = latest === null ? null : await this.versions.normalisedXmlOf(latest.id);
    if (latest === null || normalisedXml === null)
      throw new DomainError('nothing-to-split', 'Upload a score first, then let Heddle propose.');
    const split = snapshotOf(await this.repository.wholeOf(songId));
    const newLineIds = Array.from({ length: MOST_NEW_LINES }, () => this.clock.newId());
    const parts = song.arrangementParts ?? latest.arrangementParts;
    const { operation, unsureCount, changedCount } = await this.workers.run({
      kind: 'propose',
      normalisedXml,
      parts,
      split,
      lineCount: lineCount ?? null,
      newLineIds,
    });
    return { baseRevision: split.revision, operation, unsureCount, changedCount };
  }
}
