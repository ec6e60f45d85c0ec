import { Injectable } from '@nestjs/common';
import type { z } from 'zod';
import type { operationsSince } from '../../contract/index.ts';
import { judge, snapshotOf, type OrderedOperation, type SplitSnapshot, type Submission } from '../../music/index.ts';
import { Clock } from '../clock/clock.ts';
import { requireOf } from '../courses/course-access.ts';
import { Database } from '../database/database.ts';
import { DomainError, notFound } from '../errors/domain-error.ts';
import type { Person } from '../people/person.ts';
import { SongAccess } from '../scores/song-access.ts';
import { KnownNotes } from './known-notes.ts';
import { SplitFeed } from './split-feed.ts';
import { SplitOrderRepository } from './split-order.repository.ts';
import { SplitRepository } from './split.repository.ts';

/** What joining clients get: the operations that they miss, or the whole where that is shorter. */
export type CatchUp =
  | { readonly kind: 'operations'; readonly operations: readonly OrderedOperation[] }
  | { readonly kind: 'snapshot'; readonly snapshot: SplitSnapshot };

/** Who hands an operation in. */
export type Author = Pick<Person, 'id' | 'name'>;

/** An operation in its place, and whether it took it just now. */
export interface Answered {
  readonly operation: OrderedOperation;
  readonly isNew: boolean;
}

const MOST_OPERATIONS = 500;

@Injectable()
export class SplitsService {
  constructor(
    private readonly splits: SplitRepository,
    private readonly orders: SplitOrderRepository,
    private readonly notes: KnownNotes,
    private readonly access: SongAccess,
    private readonly database: Database,
    private readonly feed: SplitFeed,
    private readonly clock: Clock,
  ) {}

  async snapshot(by: Pick<Person, 'id'>, songId: string): Promise<SplitSnapshot> {
    await this.access.require(by, songId, 'song.see');
    return snapshotOf(await this.splits.wholeOf(songId));
  }

  async operationsAfter(by: Person, songId: string, after: number): Promise<z.input<typeof operationsSince>> {
    await this.access.require(by, songId, 'song.see');
    const found = await this.splits.operationsAfter(songId, after, MOST_OPERATIONS + 1);
    const operations = found.slice(0, MOST_OPERATIONS);
    return { revision: await this.splits.revisionOf(songId), operations, isAll: found.length === operations.length };
  }

  /** The operations after `knownRevision`, or a snapshot where that is shorter or the revision is not one of ours. */
  async catchUp(by: Pick<Person, 'id'>, songId: string, knownRevision: number | null): Promise<CatchUp> {
    await this.access.require(by, songId, 'split.mark');
    return this.database.snapshot(async () => {
      const split = await this.splits.wholeOf(songId);
      const snapshot = snapshotOf(split);
      if (knownRevision === null || knownRevision > split.revision) return { kind: 'snapshot', snapshot };
      const size = await this.splits.sizeAfter(songId, knownRevision);
      if (size > JSON.stringify(snapshot).length) return { kind: 'snapshot', snapshot };
      return {
        kind: 'operations',
        operations: await this.splits.operationsAfter(songId, knownRevision, split.revision),
      };
    });
  }

  /** Puts a submission in order, once. **Errors** `operation-differs`, `operation-unknown-note`, `operation-unknown-line`, `already-there`. */
  async submit(by: Author, songId: string, submission: Submission): Promise<Answered> {
    const answered = await this.database.transaction(() => this.order(by, songId, submission));
    if (answered.isNew) this.feed.announce({ songId, operation: answered.operation });
    return answered;
  }

  private async order(by: Author, songId: string, submission: Submission): Promise<Answered> {
    const held = await this.orders.hold(songId, by.id);
    if (held?.role == null) throw notFound('song');
    requireOf(held.role, 'split.mark');
    const { first, lines, marks } = await this.orders.presentFor(songId, by.id, submission);
    const hasNote = await this.notes.of(held.scoreVersionId);
    const split = { revision: held.revision, lines, marks };
    const verdict = judge({ split, submission, first, hasNote: (note) => hasNote.has(note) });
    if (verdict.kind === 'refused') throw new DomainError(verdict.refusal.code, verdict.refusal.detail);
    if (verdict.kind === 'duplicate') return { operation: verdict.first, isNew: false };
    const operation: OrderedOperation = { ...submission, revision: verdict.revision, by: by.id, byName: by.name };
    await this.orders.write(songId, operation, verdict.effect, this.clock.now());
    return { operation, isNew: true };
  }
}
