import { Inject, Injectable, type OnModuleInit } from '@nestjs/common';
import { operationId } from '../../music/index.ts';
import { Clock } from '../clock/clock.ts';
import { LOG, type Log } from '../http/log.ts';
import { ScoreUploaded, type Upload } from '../scores/score-uploaded.ts';
import { ScoreVersionRepository } from '../scores/score-version.repository.ts';
import { ProposalsService } from './proposals.service.ts';
import { SplitsService } from './splits.service.ts';

const NOT_SPLIT = {
  code: 'not-split-yet',
  where: { kind: 'file' },
  severity: 'warning',
  detail: 'The score is kept, but splitting it into lines did not work just now. Ask for a proposal at its table.',
} as const;

/** Splits a score of which no note is on a line yet at once, as if its uploader had accepted a proposal: a song's first one, or one of other music than before. Where that fails, the score is kept all the same. */
@Injectable()
export class FirstProposal implements OnModuleInit {
  constructor(
    private readonly uploaded: ScoreUploaded,
    private readonly proposals: ProposalsService,
    private readonly splits: SplitsService,
    private readonly versions: ScoreVersionRepository,
    private readonly clock: Clock,
    @Inject(LOG) private readonly log: Log,
  ) {}

  onModuleInit(): void {
    this.uploaded.subscribe(async (upload) => {
      try {
        await this.accept(upload);
        return [];
      } catch (error) {
        if (await this.isOvertaken(upload)) return [];
        this.log.error({ err: error, songId: upload.songId }, 'first proposal failed');
        return [NOT_SPLIT];
      }
    });
  }

  /** A newer version is split in its turn. Where nobody can tell, the failure that asked is told. */
  private async isOvertaken({ songId, version }: Upload): Promise<boolean> {
    try {
      return (await this.versions.latestOf(songId))?.version !== version;
    } catch (error) {
      this.log.error({ err: error, songId }, 'the latest version cannot be told');
      return false;
    }
  }

  private async accept({ by, songId, version }: Upload): Promise<void> {
    if (!(await this.proposals.isBlank(by, songId, version))) return;
    const { baseRevision, operation, changedCount } = await this.proposals.propose(by, songId, {});
    const isBegunByHand = version === 1 && baseRevision > 0;
    if (isBegunByHand || changedCount === 0) return;
    if (!(await this.proposals.isBlank(by, songId, version))) return; // a newer score or somebody's marks came meanwhile
    await this.splits.submit(by, songId, { id: operationId(this.clock.newId()), baseRevision, operation });
  }
}
