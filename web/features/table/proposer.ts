import type { Mark, NoteId, Score, Split } from '../../../music/index.ts';
import type { ProposerAnswer, ProposerQuestion, SplitNews } from './proposing.ts';

/** A worker as far as it is used here. */
export interface ProposerPort {
  onmessage: ((event: MessageEvent<ProposerAnswer>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
  postMessage(question: ProposerQuestion): void;
  terminate(): void;
}

/** What a proposer is made with. */
export interface ProposerSetup {
  readonly score: Score;
  readonly openPort: () => ProposerPort;
  readonly onAnswer: (answer: ProposerAnswer) => void;
  /** The worker is lost; the next question starts another. */
  readonly onFailure: (reason: unknown) => void;
}

/** Lets a worker of this page work out proposals: the song goes there once, then only what has changed; only the last question is answered. */
export class Proposer {
  readonly #setup: ProposerSetup;
  #port: ProposerPort | null = null;
  #told: Split['marks'] | null = null;
  #request = 0;

  constructor(setup: ProposerSetup) {
    this.#setup = setup;
  }

  /** Asks about a split; what was asked before is no longer answered. */
  ask(split: Pick<Split, 'lines' | 'marks'>): void {
    this.#tell(split, true);
  }

  /** Lets the worker know the song and its split before anything is asked. */
  makeReady(split: Pick<Split, 'lines' | 'marks'>): void {
    this.#tell(split, false);
  }

  /** Whatever is under way is no longer answered. */
  forget(): void {
    this.#request += 1;
  }

  close(): void {
    this.forget();
    this.#port?.terminate();
    this.#port = null;
    this.#told = null;
  }

  /** Gives the worker up, as where it failed. */
  fail(reason: unknown): void {
    this.close();
    this.#setup.onFailure(reason);
  }

  #tell(split: Pick<Split, 'lines' | 'marks'>, wantsAnswer: boolean): void {
    this.#request += 1;
    const { lines, marks } = split;
    const news: SplitNews =
      this.#told === null
        ? { score: this.#setup.score, lines, marks: [...marks], isWhole: true }
        : { score: null, lines, ...changesOf(this.#told, marks) };
    try {
      const port = this.#port ?? this.#open();
      port.postMessage({ request: this.#request, wantsAnswer, news });
      this.#told = marks;
    } catch (reason) {
      this.fail(reason);
    }
  }

  #open(): ProposerPort {
    const port = this.#setup.openPort();
    port.onmessage = ({ data }) => {
      if (data.request === this.#request) this.#setup.onAnswer(data);
    };
    port.onerror = (event) => {
      if (port === this.#port) this.fail(event.message);
    };
    this.#port = port;
    return port;
  }
}

/** The marks that differ from those told before; all of them where some are gone. */
function changesOf(told: Split['marks'], marks: Split['marks']): Pick<SplitNews, 'marks' | 'isWhole'> {
  const changed: (readonly [NoteId, Mark])[] = [];
  let known = 0;
  for (const [note, mark] of marks) {
    const before = told.get(note);
    if (before !== undefined) known += 1;
    if (before !== mark) changed.push([note, mark]);
  }
  return known < told.size ? { marks: [...marks], isWhole: true } : { marks: changed, isWhole: false };
}
