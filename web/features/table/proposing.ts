import {
  lineId,
  proposalOperation,
  splitProposer,
  type Line,
  type Mark,
  type NoteId,
  type Operation,
  type ProposeOptions,
  type Score,
  type SplitProposer,
} from '../../../music/index.ts';

/** What has changed in a split since the last question, or all of it. */
export interface SplitNews {
  /** The song, with the first question alone. */
  readonly score: Score | null;
  readonly lines: readonly Line[];
  readonly marks: readonly (readonly [NoteId, Mark])[];
  /** Whether `marks` are all there are. */
  readonly isWhole: boolean;
}

/** A question to the proposer; `request` names it. */
export interface ProposerQuestion {
  readonly request: number;
  /** Whether an answer is wanted; without, only what the music says by itself is found out, so that the next one comes at once. */
  readonly wantsAnswer: boolean;
  readonly news: SplitNews;
}

/** What would change. */
export interface ProposerAnswer {
  readonly request: number;
  readonly operation: Operation;
}

/** A song and its split as the proposer's worker holds them. */
export class Proposing {
  readonly #newId: () => string;
  #proposer: SplitProposer | null = null;
  #lines: readonly Line[] = [];
  #marks = new Map<NoteId, Mark>();

  constructor(newId: () => string) {
    this.#newId = newId;
  }

  /** Takes in what has changed; the answer, where one is wanted. */
  answer({ request, wantsAnswer, news }: ProposerQuestion): ProposerAnswer | null {
    this.#take(news);
    const proposal = this.#proposer?.propose(this.#options());
    if (proposal === undefined || !wantsAnswer) return null;
    const split = { revision: 0, lines: this.#lines, marks: this.#marks };
    return { request, operation: proposalOperation(split, proposal) };
  }

  #take({ score, lines, marks, isWhole }: SplitNews): void {
    if (score !== null) this.#proposer = splitProposer(score);
    this.#lines = lines;
    if (isWhole) this.#marks = new Map(marks);
    else for (const [note, mark] of marks) this.#marks.set(note, mark);
  }

  #options(): ProposeOptions {
    const marks = [...this.#marks];
    return {
      pins: new Map(marks.filter(([, mark]) => mark.from === 'person').map(([note, mark]) => [note, mark.lines])),
      present: new Map(marks.map(([note, mark]) => [note, mark.lines])),
      lines: this.#lines,
      newLineId: () => lineId(this.#newId()),
    };
  }
}
