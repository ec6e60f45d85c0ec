import { Injectable } from '@nestjs/common';
import type { Person } from '../people/person.ts';

/** A score that has just been kept. */
export interface Upload {
  readonly by: Person;
  readonly songId: string;
  readonly version: number;
}

/** Tells whoever works on with scores that one has come; the upload's answer waits for them. */
@Injectable()
export class ScoreUploaded {
  private readonly listeners = new Set<(upload: Upload) => Promise<void>>();

  subscribe(listener: (upload: Upload) => Promise<void>): void {
    this.listeners.add(listener);
  }

  async announce(upload: Upload): Promise<void> {
    for (const listener of this.listeners) await listener(upload);
  }
}
