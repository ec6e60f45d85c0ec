import { Module } from '@nestjs/common';
import { CoursesModule } from '../courses/courses.module.ts';
import { PeopleModule } from '../people/people.module.ts';
import { ScoresModule } from '../scores/scores.module.ts';
import { SongSoundModule } from '../song-sound/song-sound.module.ts';
import { Announcements } from './announcements.ts';
import { FirstProposal } from './first-proposal.ts';
import { KnownNotes } from './known-notes.ts';
import { ProposalsService } from './proposals.service.ts';
import { SongContents } from './song-contents.ts';
import { SplitFeed } from './split-feed.ts';
import { SplitOrderRepository } from './split-order.repository.ts';
import { SplitRepository } from './split.repository.ts';
import { SplitsController } from './splits.controller.ts';
import { SplitsService } from './splits.service.ts';
import { TablePeople } from './table-people.ts';
import { TableSeats } from './table-seats.ts';
import { TableSessions } from './table-sessions.ts';
import { TableGateway } from './table.gateway.ts';

@Module({
  imports: [CoursesModule, PeopleModule, ScoresModule, SongSoundModule],
  controllers: [SplitsController],
  providers: [
    SplitsService,
    ProposalsService,
    FirstProposal,
    KnownNotes,
    SplitFeed,
    SplitRepository,
    SplitOrderRepository,
    TableGateway,
    TableSeats,
    TablePeople,
    TableSessions,
    Announcements,
    SongContents,
  ],
  exports: [SplitsService, ProposalsService, SongContents],
})
export class SplitsModule {}
