import { Inject, Injectable, type OnApplicationShutdown } from '@nestjs/common';
import type { Config } from '../config/config.ts';
import { CONFIG } from '../config/config.module.ts';
import { DomainError } from '../errors/domain-error.ts';
import type { AnswerOf, Job } from './jobs.ts';
import { workerEntry } from './worker-entry.ts';
import { JobStopped, Worker } from './worker.ts';

const LONGEST_QUEUE = 32;

/** A few processes, kept and used again, in which hostile files are read and splits are proposed. */
@Injectable()
export class Workers implements OnApplicationShutdown {
  private workers: Worker[] = [];
  private readonly waiting: ((worker: Worker) => void)[] = [];

  constructor(@Inject(CONFIG) private readonly config: Config) {}

  /** The answer to a job. **Errors** `reading-timed-out`, `too-large` (memory), `too-many-requests` (queue full). */
  async run<Kind extends Job['kind']>(job: Extract<Job, { kind: Kind }>): Promise<AnswerOf<Kind>> {
    const worker = await this.take();
    try {
      return (await worker.run(job)) as AnswerOf<Kind>;
    } catch (error) {
      throw error instanceof JobStopped ? refusalOf(error) : error;
    } finally {
      this.giveBack(worker);
    }
  }

  onApplicationShutdown(): void {
    for (const worker of this.workers) worker.stop();
  }

  private take(): Promise<Worker> {
    const idle = this.workers.find((worker) => worker.isIdle && !this.taken.has(worker));
    if (idle !== undefined) return Promise.resolve(this.mark(idle));
    if (this.workers.length < this.config.reading.processes) return Promise.resolve(this.mark(this.start()));
    if (this.waiting.length >= LONGEST_QUEUE) {
      throw new DomainError('too-many-requests', 'Many files are being read just now. Please try again in a minute.');
    }
    return new Promise((resolve) => this.waiting.push(resolve));
  }

  private readonly taken = new Set<Worker>();

  private mark(worker: Worker): Worker {
    this.taken.add(worker);
    return worker;
  }

  private start(): Worker {
    const worker = new Worker(workerEntry(), this.config.reading);
    this.workers.push(worker);
    return worker;
  }

  private giveBack(worker: Worker): void {
    this.taken.delete(worker);
    if (worker.isGone) this.workers = this.workers.filter((other) => other !== worker);
    const next = this.waiting.shift();
    if (next !== undefined) next(this.mark(worker.isGone ? this.start() : worker));
  }
}

function refusalOf(stopped: JobStopped): DomainError {
  const code = { time: 'reading-timed-out', memory: 'too-large', died: 'too-large' } as const;
  const detail = stopped.why === 'died' ? 'The reading process gave up on it.' : stopped.message;
  return new DomainError(code[stopped.why], `Reading was stopped: ${detail}`);
}
