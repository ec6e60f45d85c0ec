import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Inject, Injectable, type OnApplicationShutdown } from '@nestjs/common';
import { Clock } from '../clock/clock.ts';
import type { Config } from '../config/config.ts';
import { CONFIG } from '../config/config.module.ts';
import type { NothingRendered, Rendered, SoundJob } from '../workers/jobs.ts';
import { workerEntry } from '../workers/worker-entry.ts';
import { JobStopped, Worker } from '../workers/worker.ts';

const KEPT_MILLISECONDS = 3_600_000;

type Phase =
  | { readonly kind: 'waiting' }
  | { readonly kind: 'rendering'; readonly share: number; readonly worker: Worker }
  | { readonly kind: 'ready'; readonly rendered: Rendered; readonly bytes: number; readonly readyAt: Date }
  | { readonly kind: 'failed'; readonly detail: string; readonly failedAt: Date };

/** A making of sound files, whoever asked for it. */
export interface SoundMaking {
  readonly id: string;
  readonly personId: string;
  readonly songId: string;
  readonly name: string;
  readonly job: SoundJob;
  phase: Phase;
}

const refusals: Readonly<Record<NothingRendered['why'], string>> = {
  noSuchBars: 'The score has no such bars, or nothing lies between the ends that were named.',
  tooLong: 'It would last longer than 20 minutes. Ask for some bars, a quicker tempo or without repeats.',
};

/**
 * Sound is rendered one making after the other in processes of its own, beside those that read files. What is made lies in
 * a folder of this server's process for an hour, and ends with it.
 */
@Injectable()
export class SoundQueue implements OnApplicationShutdown {
  private readonly makings = new Map<string, SoundMaking>();
  private folder: string | null = null;

  constructor(
    @Inject(CONFIG) private readonly config: Config,
    private readonly clock: Clock,
  ) {}

  all(): readonly SoundMaking[] {
    this.sweep();
    return [...this.makings.values()];
  }

  of(id: string): SoundMaking | undefined {
    this.sweep();
    return this.makings.get(id);
  }

  /** Where in the queue a waiting one stands, from 1. */
  placeOf(making: SoundMaking): number {
    return this.waiting().indexOf(making) + 1;
  }

  keptUntil(readyAt: Date): Date {
    return new Date(readyAt.getTime() + KEPT_MILLISECONDS);
  }

  add(asked: Omit<SoundMaking, 'phase' | 'job'> & { readonly job: Omit<SoundJob, 'target'> }): SoundMaking {
    this.folder ??= mkdtempSync(join(tmpdir(), 'heddle-sound-'));
    const job: SoundJob = { ...asked.job, target: join(this.folder, asked.id) };
    const making: SoundMaking = { ...asked, job, phase: { kind: 'waiting' } };
    this.makings.set(making.id, making);
    this.next();
    return making;
  }

  /** Stops it, whatever it is at, and takes away what it made. */
  remove(making: SoundMaking): void {
    this.makings.delete(making.id);
    if (making.phase.kind === 'rendering') making.phase.worker.stop();
    this.clear(making);
    this.next();
  }

  onApplicationShutdown(): void {
    for (const { phase } of this.makings.values()) if (phase.kind === 'rendering') phase.worker.stop();
    this.makings.clear();
    if (this.folder !== null) rmSync(this.folder, { recursive: true, force: true });
  }

  private waiting(): readonly SoundMaking[] {
    return [...this.makings.values()].filter(({ phase }) => phase.kind === 'waiting');
  }

  private next(): void {
    const busy = [...this.makings.values()].filter(({ phase }) => phase.kind === 'rendering').length;
    const [making] = this.waiting();
    if (making === undefined || busy >= this.config.sound.processes) return;
    const worker = new Worker(workerEntry(), this.config.sound);
    making.phase = { kind: 'rendering', share: 0, worker };
    const onShare = (share: number): void => {
      if (making.phase.kind === 'rendering') making.phase = { kind: 'rendering', share, worker };
    };
    void worker
      .run(making.job, onShare)
      .then(
        (answer) => this.done(making, answer as Rendered | NothingRendered),
        (error: unknown) => this.fail(making, error instanceof JobStopped ? error.message : 'The rendering failed.'),
      )
      .finally(() => {
        worker.stop();
        this.next();
      });
    this.next();
  }

  private done(making: SoundMaking, answer: Rendered | NothingRendered): void {
    if (answer.kind === 'nothingRendered') this.fail(making, refusals[answer.why]);
    else if (this.makings.has(making.id)) {
      const { size } = statSync(making.job.target);
      making.phase = { kind: 'ready', rendered: answer, bytes: size, readyAt: this.clock.now() };
    } else this.clear(making);
  }

  private fail(making: SoundMaking, detail: string): void {
    this.clear(making);
    making.phase = { kind: 'failed', detail, failedAt: this.clock.now() };
  }

  private clear({ job }: SoundMaking): void {
    rmSync(job.target, { force: true });
    rmSync(`${job.target}.parts`, { recursive: true, force: true });
  }

  /** What has lain long enough goes. */
  private sweep(): void {
    const oldest = this.clock.now().getTime() - KEPT_MILLISECONDS;
    for (const making of this.makings.values()) {
      const { phase } = making;
      const endedAt = phase.kind === 'ready' ? phase.readyAt : phase.kind === 'failed' ? phase.failedAt : null;
      if (endedAt !== null && endedAt.getTime() < oldest) this.remove(making);
    }
  }
}
