import type { LineId, NoteId } from '../basis/ids.ts';
import type { Operation } from '../operations/operation.ts';
import { unmarked, type Line, type Mark, type Split } from '../operations/split.ts';

/** What is suggested for one note. */
export interface ProposedMark {
  /** None, one or two lines, sorted by id. */
  readonly lines: readonly LineId[];
  /** 0 to 1. */
  readonly confidence: number;
}

/** Why a line is what it is, in a sentence for the teacher. */
export interface LineReason {
  readonly line: LineId;
  readonly reason: string;
}

/** A split that is suggested and not yet accepted. */
export interface Proposal {
  /** Every line after acceptance, those not retired in order from high to low. */
  readonly lines: readonly Line[];
  readonly marks: ReadonlyMap<NoteId, ProposedMark>;
  readonly reasons: readonly LineReason[];
}

const isSame = (mark: Omit<Mark, 'revision'>, proposed: ProposedMark): boolean =>
  mark.from === 'proposal' && mark.confidence === proposed.confidence && mark.lines.join() === proposed.lines.join();

/** The operation that takes a proposal: only notes whose mark changes are listed, and none that a person has marked; only lines that the split lacks. */
export function proposalOperation(split: Split, proposal: Proposal): Operation {
  const changes: Extract<Operation, { kind: 'acceptProposal' }>['changes'] = [];
  for (const [note, proposed] of proposal.marks) {
    const mark = split.marks.get(note) ?? unmarked;
    if (mark.from === 'person' || isSame(mark, proposed)) continue;
    const before = { lines: [...mark.lines], from: mark.from, confidence: mark.confidence };
    changes.push({
      note,
      before,
      after: { lines: [...proposed.lines], from: 'proposal', confidence: proposed.confidence },
    });
  }
  const known = new Set(split.lines.map((line) => line.id));
  return { kind: 'acceptProposal', lines: proposal.lines.filter((line) => !known.has(line.id)), changes };
}
