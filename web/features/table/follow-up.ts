import type { Operation } from '../../../music/index.ts';
import type { Timers } from '../../lib/room/throttle.ts';

/** What a follow-up is made with. */
export interface FollowUpSetup {
  readonly timers: Timers;
  readonly ask: () => Promise<{ readonly operation: Operation }>;
  /** Whether the server knows every mark made here. */
  readonly isSaved: () => boolean;
  readonly onProposal: (operation: Operation) => void;
}

/** How long marks must have stood still before a proposal is asked for. */
const restMs = 800;

/** Asks for a proposal some time after the last of a person's marks, once the server knows them; an answer that newer marks have overtaken is dropped. */
export class FollowUp {
  readonly #setup: FollowUpSetup;
  #cancel: (() => void) | null = null;
  #round = 0;
  #waits = false;

  constructor(setup: FollowUpSetup) {
    this.#setup = setup;
  }

  /** A person has just marked notes. */
  marked(): void {
    this.stop();
    this.#cancel = this.#setup.timers.after(restMs, () => {
      this.#waits = true;
      this.saved();
    });
  }

  /** The marks may have reached the server just now. */
  saved(): void {
    if (!this.#waits || !this.#setup.isSaved()) return;
    this.#waits = false;
    void this.#ask(this.#round);
  }

  /** Forgets what was to be asked, and the answer that may still come. */
  stop(): void {
    this.#cancel?.();
    this.#cancel = null;
    this.#waits = false;
    this.#round += 1;
  }

  async #ask(round: number): Promise<void> {
    const answer = await this.#setup.ask().catch(() => null); // nobody asked for it: the next mark asks again
    if (answer !== null && round === this.#round) this.#setup.onProposal(answer.operation);
  }
}
