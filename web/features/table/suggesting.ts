import type { BarId, NoteId, Operation } from '../../../music/index.ts';
import type { Timers } from '../../lib/room/throttle.ts';
import type { Proposer } from './proposer.ts';
import type { ProposerAnswer } from './proposing.ts';
import { peoplesNotesOf, sameThere } from './same-there.ts';
import { isPlain, leaving, stillStanding, suggestionOf, suggestionOfSame, type LeftNotes } from './suggestion.ts';
import type { TableState } from './table-state.ts';

type Changes = Partial<Pick<TableState, 'suggestion' | 'same' | 'isAsking' | 'problem'>>;

/** What suggesting is made with. */
export interface SuggestingSetup {
  readonly timers: Timers;
  readonly proposer: Pick<Proposer, 'ask' | 'makeReady' | 'forget' | 'fail'>;
  readonly state: () => TableState;
  readonly change: (changes: Changes) => void;
  readonly submit: (operation: Operation) => void;
}

/** How long marks and choices must have stood still before anything is worked out from them. */
const restMs = 250;
/** How long a table has been open before the worker is started: engraving goes first. */
const readyMs = 1500;
/** After so long without an answer the worker counts as lost. */
const patienceMs = 60_000;

/**
 * What could be done next at a table: what else would change after a correction, and the same in like bars. Everything is worked out from the
 * split as it stands here; where anybody changes it, answers under way are dropped and asked for again.
 */
export class Suggesting {
  readonly #setup: SuggestingSetup;
  #left: LeftNotes = new Map();
  #correctedBar: BarId | null = null;
  /** The notes whose lines are on show for other bars. */
  #sources: readonly NoteId[] = [];
  #wants: 'offered' | 'asked' | null = null;
  #cancelReady: (() => void) | null = null;
  #cancelRest: (() => void) | null = null;
  #cancelPatience: (() => void) | null = null;

  constructor(setup: SuggestingSetup) {
    this.#setup = setup;
  }

  /** Lets the worker know the song before the first correction, so that its answer comes at once. */
  makeReady(): void {
    this.#cancelReady = this.#setup.timers.after(readyMs, () => {
      if (this.#wants === null) this.#setup.proposer.makeReady(this.#setup.state().room.split);
    });
  }

  /** A person here has put notes on other lines. */
  corrected(notes: readonly NoteId[]): void {
    const { score } = this.#setup.state();
    this.#correctedBar = score.notes.find(({ id }) => id === notes.at(-1))?.bar ?? null;
    this.#wants = 'offered';
    this.#setup.proposer.forget();
    this.#setup.change({ suggestion: null, same: null });
    tell('heddle: corrected');
    this.#rest();
  }

  /** One has gone on to other notes: the same could be done with them elsewhere. */
  wentOn(): void {
    this.#correctedBar = null;
    this.#rest();
  }

  /** Somebody else has changed the split: what it contradicts is no longer shown, and the rest is worked out again. */
  overtaken(): void {
    const { suggestion, room } = this.#setup.state();
    this.#setup.proposer.forget();
    if (suggestion !== null && suggestion.from !== 'same') this.#wants ??= suggestion.from;
    this.#setup.change({ suggestion: suggestion === null ? null : stillStanding(suggestion, room.split), same: null });
    this.#rest();
  }

  /** Drops what is shown and what is under way. */
  stop(): void {
    this.#correctedBar = null;
    this.#nothingMore();
    this.#setup.change({ suggestion: null, same: null, isAsking: false });
    this.#rest();
  }

  /** Ends all waiting. */
  destroy(): void {
    this.#cancelReady?.();
    this.#cancelRest?.();
    this.#stopWaiting();
  }

  /** Asks what would be proposed now for what no person has marked. */
  ask(): void {
    this.#wants = 'asked';
    this.#setup.change({ isAsking: true, problem: null, suggestion: null });
    this.#ask();
  }

  /** Takes an answer of the proposer in. */
  answered({ operation }: ProposerAnswer): void {
    const { room, score } = this.#setup.state();
    const from = this.#wants;
    if (from === null) return;
    this.#nothingMore();
    const found = suggestionOf(operation, room.split, from === 'asked' ? new Map() : this.#left, from);
    const isFolded = from === 'offered' && found !== null && !isPlain(found, score.notes.length);
    const isWorthIt = found !== null && (from === 'asked' || found.follows.size > 0);
    this.#setup.change({ suggestion: isWorthIt ? { ...found, isFolded } : null, isAsking: false });
    tell('heddle: answered');
  }

  /** The proposer's worker was lost. */
  failed(): void {
    const wasWanted = this.#wants !== null;
    this.#wants = null;
    this.#stopWaiting();
    if (wasWanted) this.#setup.change({ isAsking: false, problem: notWorkedOut });
  }

  /** Takes the suggestion, in one step that can be taken back. */
  follow(): void {
    const { suggestion } = this.#setup.state();
    if (suggestion === null || suggestion.isFolded) return;
    this.#nothingMore();
    this.#setup.change({ suggestion: null, same: null });
    if (suggestion.follows.size > 0) this.#setup.submit(suggestion.operation);
  }

  /** Leaves things as they are; the same is not suggested again unasked. */
  leave(): void {
    const { suggestion } = this.#setup.state();
    if (suggestion !== null) this.#left = leaving(this.#left, suggestion);
    this.#nothingMore();
    this.#setup.change({ suggestion: null, ...(suggestion?.from === 'same' ? { same: null } : {}) });
  }

  /** Shows what was only told of. */
  unfold(): void {
    const { suggestion } = this.#setup.state();
    if (suggestion !== null) this.#setup.change({ suggestion: { ...suggestion, isFolded: false } });
  }

  /** Shows what the same deed in like bars would mark; where that is on show already, does it. */
  doSame(): void {
    const { suggestion } = this.#setup.state();
    if (suggestion?.from === 'same') {
      this.follow();
      return;
    }
    this.#sources = this.#sourcesNow();
    this.#showSame(true);
  }

  /** Shows the same deed without the bars that are only nearly alike. */
  leaveOutVaried(): void {
    this.#showSame(false);
  }

  #showSame(takesVaried: boolean): void {
    const { score, room } = this.#setup.state();
    const same = sameThere(score, room.split, this.#sources, takesVaried);
    if (same === null) return;
    this.#nothingMore();
    this.#setup.change({ same, suggestion: suggestionOfSame(same) });
  }

  #sourcesNow(): readonly NoteId[] {
    const { score, room, selected, cursor } = this.#setup.state();
    if (selected.size > 0) return [...selected];
    const bar = this.#correctedBar ?? score.notes.find(({ id }) => id === cursor)?.bar ?? null;
    return bar === null ? [] : peoplesNotesOf(score, room.split, bar);
  }

  #rest(): void {
    this.#cancelRest?.();
    this.#cancelRest = this.#setup.timers.after(restMs, () => {
      this.#cancelRest = null;
      if (this.#wants !== null) this.#ask();
      this.#offerSame();
    });
  }

  /** Unasked, only what people have marked is offered for other bars. */
  #offerSame(): void {
    const { suggestion, score, room, same } = this.#setup.state();
    if (suggestion?.from === 'same') return;
    const sources = this.#sourcesNow();
    const isPeoples = sources.some((note) => room.split.marks.get(note)?.from === 'person');
    const found = isPeoples ? sameThere(score, room.split, sources) : null;
    if (found !== same) this.#setup.change({ same: found });
  }

  #nothingMore(): void {
    this.#wants = null;
    this.#setup.proposer.forget();
    this.#stopWaiting();
  }

  #ask(): void {
    this.#stopWaiting();
    this.#cancelPatience = this.#setup.timers.after(patienceMs, () =>
      this.#setup.proposer.fail('no answer for a minute'),
    );
    tell('heddle: asked');
    this.#setup.proposer.ask(this.#setup.state().room.split);
  }

  #stopWaiting(): void {
    this.#cancelPatience?.();
    this.#cancelPatience = null;
  }
}

const notWorkedOut =
  'What else would change could not be worked out in this browser. Your marks are kept; “Propose again” tries once more.';

/** A mark on the page's own time line, where each step of a correction can be measured. */
function tell(step: string): void {
  performance.clearMarks(step);
  performance.mark(step);
}
