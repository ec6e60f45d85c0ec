import { Injectable } from '@nestjs/common';

/** Somebody who is no longer in a course. */
export interface Departure {
  readonly courseId: string;
  readonly personId: string;
}

/** Tells whoever holds something open for a member that the membership has ended. */
@Injectable()
export class MembershipEnded {
  private readonly listeners = new Set<(departure: Departure) => void>();

  subscribe(listener: (departure: Departure) => void): void {
    this.listeners.add(listener);
  }

  announce(departure: Departure): void {
    for (const listener of this.listeners) listener(departure);
  }
}
