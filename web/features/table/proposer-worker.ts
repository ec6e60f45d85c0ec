import { v7 as newUuid } from 'uuid';
import { Proposing, type ProposerAnswer, type ProposerQuestion } from './proposing.ts';

/** The part of a worker's global scope that is used; the page's own types are in force here. */
declare const self: {
  addEventListener(type: 'message', listener: (event: MessageEvent<ProposerQuestion>) => void): void;
  postMessage(answer: ProposerAnswer): void;
};

const proposing = new Proposing(newUuid);

self.addEventListener('message', ({ data }) => {
  const answer = proposing.answer(data);
  if (answer !== null) self.postMessage(answer);
});
