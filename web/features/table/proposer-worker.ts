import { v7 as newUuid } from 'uuid';
import { Proposing, type ProposerAnswer, type ProposerQuestion } from './proposing.ts';

/** The part of a worker's global scope that is used; the page's own types are in force here. */
declare const self: {
  addEventListener(type: 'message', listener: (event: MessageEvent<ProposerQuestion>) => void): void;
  postMessage(answer: ProposerAnswer): void;
  setTimeout(deed: () => void): number;
};

const proposing = new Proposing(newUuid);
let newest = 0;

/** One step, then whatever has come in meanwhile, then the next step, unless that was a newer question. */
function goOn(request: number, steps: Iterator<ProposerAnswer>): void {
  if (request !== newest) return;
  const step = steps.next();
  if (step.done === true) return;
  self.postMessage(step.value);
  self.setTimeout(() => goOn(request, steps));
}

self.addEventListener('message', ({ data }) => {
  newest = data.request;
  goOn(data.request, proposing.answers(data));
});
