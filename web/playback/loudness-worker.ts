import { linePowersOf, type LinePowers, type Performance } from '../../music/index.ts';

/** What the worker is asked, and what it answers; `request` names the asking. */
export interface LoudnessRequest {
  readonly request: number;
  readonly performance: Performance;
}
export interface LoudnessAnswer {
  readonly request: number;
  readonly powers: LinePowers;
}

/** The part of a worker's global scope that is used; the page's own types are in force here. */
declare const self: {
  addEventListener(type: 'message', listener: (event: MessageEvent<LoudnessRequest>) => void): void;
  postMessage(answer: LoudnessAnswer): void;
};

self.addEventListener('message', (event) => {
  const answer: LoudnessAnswer = { request: event.data.request, powers: linePowersOf(event.data.performance) };
  self.postMessage(answer);
});
