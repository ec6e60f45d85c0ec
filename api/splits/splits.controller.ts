import { Body, Controller, Get, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import {
  operationsQuery,
  operationsSince,
  orderedOperation,
  proposal,
  proposalDraft,
  splitSnapshot,
  submission,
} from '../../contract/index.ts';
import type { OrderedOperation, SplitSnapshot, Submission } from '../../music/index.ts';
import { Answers } from '../http/answers.ts';
import { IdParam } from '../http/id-param.ts';
import type { Person } from '../people/person.ts';
import { By } from '../people/request-person.ts';
import { ProposalsService } from './proposals.service.ts';
import { SplitsService } from './splits.service.ts';

@ApiTags('splits')
@Controller('api/songs/:id/split')
export class SplitsController {
  constructor(
    private readonly splits: SplitsService,
    private readonly proposals: ProposalsService,
  ) {}

  @Get()
  @Answers({
    summary: 'The whole split at its present revision',
    schema: splitSnapshot,
    errors: ['not-permitted', 'not-found'],
  })
  snapshot(@By() by: Person, @IdParam() id: string): Promise<SplitSnapshot> {
    return this.splits.snapshot(by, id);
  }

  @Get('operations')
  @Answers({
    summary: 'The operations after a revision, in order',
    schema: operationsSince,
    errors: ['body-invalid', 'not-permitted', 'not-found'],
  })
  operationsAfter(
    @By() by: Person,
    @IdParam() id: string,
    @Query({ schema: operationsQuery }) { after }: z.output<typeof operationsQuery>,
  ): Promise<z.input<typeof operationsSince>> {
    return this.splits.operationsAfter(by, id, after);
  }

  @Post('operations')
  @Answers({
    summary: 'Put an operation in order; the same one again is answered as the first time',
    status: 201,
    schema: orderedOperation,
    errors: [
      'body-invalid',
      'not-permitted',
      'not-found',
      'operation-differs',
      'operation-unknown-note',
      'operation-unknown-line',
      'already-there',
      'too-large',
    ],
  })
  async submit(
    @By() by: Person,
    @IdParam() id: string,
    @Body({ schema: submission }) given: Submission,
  ): Promise<OrderedOperation> {
    return (await this.splits.submit(by, id, given)).operation;
  }

  @Post('proposal')
  @Answers({
    summary: 'What a new proposal would do; send its operation to accept it',
    schema: proposal,
    errors: ['body-invalid', 'not-permitted', 'not-found', 'nothing-to-split', 'reading-timed-out'],
  })
  propose(
    @By() by: Person,
    @IdParam() id: string,
    @Body({ schema: proposalDraft }) draft: z.output<typeof proposalDraft>,
  ): Promise<z.output<typeof proposal>> {
    return this.proposals.propose(by, id, draft);
  }
}
