import type { LinePowers, Performance } from '../../music/index.ts';
import type { LoudnessAnswer, LoudnessRequest } from './loudness-worker.ts';
import workerUrl from './loudness-worker.ts?worker&url';

/** Measures lines away from the page, one performance at a time; only the last one asked for is answered. */
export class LoudnessMeter {
  private worker: Worker | null = null;
  private asked: Performance | null = null;
  private request = 0;
  private readonly answered: (powers: LinePowers) => void;

  constructor(answered: (powers: LinePowers) => void) {
    this.answered = answered;
  }

  /** Measures a performance, unless that is already done or under way. */
  measure(performance: Performance): void {
    if (this.asked === performance) return;
    this.close();
    this.asked = performance;
    this.request += 1;
    const mine = this.request;
    const worker = new Worker(workerUrl, { type: 'module', name: 'heddle-loudness' });
    worker.onmessage = (event: MessageEvent<LoudnessAnswer>) => {
      worker.terminate();
      if (event.data.request === mine && mine === this.request) this.answered(event.data.powers);
    };
    this.worker = worker;
    const message: LoudnessRequest = { request: mine, performance };
    worker.postMessage(message);
  }

  close(): void {
    this.worker?.terminate();
    this.worker = null;
    this.asked = null;
    this.request += 1;
  }
}
