import { Injectable } from '@nestjs/common';
import type { OrderedOperation } from '../../music/index.ts';

/** An operation of one song that has been written for good. */
export interface Ordered {
  readonly songId: string;
  readonly operation: OrderedOperation;
}

/** Tells every confirmed operation, after its commit, to whoever fans it out. */
@Injectable()
export class SplitFeed {
  private readonly listeners = new Set<(ordered: Ordered) => void>();

  subscribe(listener: (ordered: Ordered) => void): void {
    this.listeners.add(listener);
  }

  announce(ordered: Ordered): void {
    for (const listener of this.listeners) listener(ordered);
  }
}
