import { Injectable } from '@nestjs/common';
import { MembershipEnded } from '../courses/membership-ended.ts';
import { SplitFeed } from './split-feed.ts';

/** What the tables listen to. */
@Injectable()
export class Announcements {
  constructor(
    readonly feed: SplitFeed,
    readonly ended: MembershipEnded,
  ) {}
}
