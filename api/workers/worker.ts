import { fork, type ChildProcess } from 'node:child_process';
import type { AnswerMessage, Job, JobAnswers } from './jobs.ts';
import { memoryOfProcess } from './memory-of-process.ts';

const WATCH_MILLISECONDS = 50;
const MEGABYTE = 1_048_576;

/** What one job may use up. */
export interface WorkerLimits {
  readonly limitSeconds: number;
  readonly limitMegabytes: number;
}

/** Why a job came to nothing. */
export class JobStopped extends Error {
  override readonly name = 'JobStopped';
  readonly why: 'time' | 'memory' | 'died';

  constructor(why: JobStopped['why'], message: string) {
    super(message);
    this.why = why;
  }
}

interface Running {
  readonly number: number;
  readonly resolve: (answer: JobAnswers[Job['kind']]) => void;
  readonly reject: (error: Error) => void;
  readonly stopWatching: () => void;
  readonly onShare: (share: number) => void;
}

/** One process that does one job after the other, and is ended when a job takes too much. */
export class Worker {
  private readonly child: ChildProcess;
  private running: Running | null = null;
  private jobCount = 0;
  isGone = false;

  constructor(
    entry: URL,
    private readonly limits: WorkerLimits,
  ) {
    this.child = fork(entry, [], {
      serialization: 'advanced',
      execArgv: [`--max-old-space-size=${Math.floor(limits.limitMegabytes * 0.75)}`],
      env: {},
      stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
    });
    this.child.on('message', (message: AnswerMessage) => this.take(message));
    this.child.on('exit', () => this.end(new JobStopped('died', 'The reading process ended by itself.')));
    this.child.on('error', (error) => this.end(error));
    this.child.unref();
    this.child.channel?.unref();
  }

  get isIdle(): boolean {
    return this.running === null && !this.isGone;
  }

  /** The answer to one job; `onShare` is told how much of a long one is done. **Errors** rejects with `JobStopped`, or with what the job itself threw. */
  run(job: Job, onShare: (share: number) => void = () => undefined): Promise<JobAnswers[Job['kind']]> {
    const number = ++this.jobCount;
    return new Promise((resolve, reject) => {
      this.running = { number, resolve, reject, stopWatching: this.watch(), onShare };
      this.child.send({ number, job }, (error) => {
        if (error !== null) this.end(error);
      });
    });
  }

  stop(): void {
    this.end(new JobStopped('died', 'Heddle is shutting down.'));
  }

  private take(message: AnswerMessage): void {
    const { running } = this;
    if (running === null || running.number !== message.number) return;
    if ('share' in message) {
      running.onShare(message.share);
      return;
    }
    this.running = null;
    running.stopWatching();
    if ('failure' in message) running.reject(new Error(message.failure));
    else running.resolve(message.answer);
  }

  private watch(): () => void {
    const { limitSeconds, limitMegabytes } = this.limits;
    const late = setTimeout(
      () => this.end(new JobStopped('time', `It took longer than ${limitSeconds} seconds.`)),
      limitSeconds * 1000,
    );
    const watching = setInterval(() => {
      void this.refuseGreed(limitMegabytes);
    }, WATCH_MILLISECONDS);
    return () => {
      clearTimeout(late);
      clearInterval(watching);
    };
  }

  private async refuseGreed(limitMegabytes: number): Promise<void> {
    const bytes = this.child.pid === undefined ? null : await memoryOfProcess(this.child.pid);
    if (bytes !== null && bytes > limitMegabytes * MEGABYTE) {
      this.end(new JobStopped('memory', `It needed more than ${limitMegabytes} MB of memory.`));
    }
  }

  private end(error: Error): void {
    if (this.isGone) return;
    this.isGone = true;
    this.child.kill('SIGKILL');
    this.running?.stopWatching();
    this.running?.reject(error);
    this.running = null;
  }
}
