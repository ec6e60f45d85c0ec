import { Injectable } from '@nestjs/common';
import type { z } from 'zod';
import type { importIssue } from '../../contract/index.ts';
import type { Person } from '../people/person.ts';

/** A score that has just been kept. */
export interface Upload {
  readonly by: Person;
  readonly songId: string;
  readonly version: number;
}

type ImportIssue = z.output<typeof importIssue>;
type Listener = (upload: Upload) => Promise<readonly ImportIssue[]>;

/** Tells whoever works on with scores that one has come; the upload's answer waits for them, and tells what they found. */
@Injectable()
export class ScoreUploaded {
  private readonly listeners = new Set<Listener>();

  subscribe(listener: Listener): void {
    this.listeners.add(listener);
  }

  async announce(upload: Upload): Promise<readonly ImportIssue[]> {
    const found: ImportIssue[] = [];
    for (const listener of this.listeners) found.push(...(await listener(upload)));
    return found;
  }
}
