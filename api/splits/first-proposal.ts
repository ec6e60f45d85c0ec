import { Injectable, type OnModuleInit } from '@nestjs/common';
import { operationId } from '../../music/index.ts';
import { Clock } from '../clock/clock.ts';
import { ScoreUploaded, type Upload } from '../scores/score-uploaded.ts';
import { ProposalsService } from './proposals.service.ts';
import { SplitsService } from './splits.service.ts';

/** Splits the first score of a song at once, as if its uploader had accepted a proposal. */
@Injectable()
export class FirstProposal implements OnModuleInit {
  constructor(
    private readonly uploaded: ScoreUploaded,
    private readonly proposals: ProposalsService,
    private readonly splits: SplitsService,
    private readonly clock: Clock,
  ) {}

  onModuleInit(): void {
    this.uploaded.subscribe((upload) => this.accept(upload));
  }

  private async accept({ by, songId, version }: Upload): Promise<void> {
    if (version !== 1) return;
    const { baseRevision, operation, changedCount } = await this.proposals.propose(by, songId, {});
    if (baseRevision > 0 || changedCount === 0) return;
    await this.splits.submit(by, songId, { id: operationId(this.clock.newId()), baseRevision, operation });
  }
}
