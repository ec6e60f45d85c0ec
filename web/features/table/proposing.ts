import {
  lineId,
  proposalOperation,
  splitProposer,
  type Line,
  type Mark,
  type NoteId,
  type Operation,
  type Proposal,
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

/** `ready`: nothing is to be answered yet, but what the music says by itself is to be found out; `followed`: a first answer at once, then the whole one; `whole`: that alone. */
export type Wanted = 'ready' | 'followed' | 'whole';

/** A question to the proposer; `request` names it. */
export interface ProposerQuestion {
  readonly request: number;
  readonly wanted: Wanted;
  readonly news: SplitNews;
}

/** One answer: what would change; `isWhole` once the whole song was looked at again. */
export interface ProposerAnswer {
  readonly request: number;
  readonly isWhole: boolean;
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

  /** Takes in what has changed, and answers step by step: what comes after a step may be left when a newer question has come. */
  *answers({ request, wanted, news }: ProposerQuestion): Generator<ProposerAnswer> {
    this.#take(news);
    const proposal = this.#proposer?.propose(this.#options());
    if (proposal !== undefined && wanted !== 'ready') yield this.#answer(request, true, proposal);
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

  #answer(request: number, isWhole: boolean, proposal: Proposal): ProposerAnswer {
    const split = { revision: 0, lines: this.#lines, marks: this.#marks };
    return { request, isWhole, operation: proposalOperation(split, proposal) };
  }
}
