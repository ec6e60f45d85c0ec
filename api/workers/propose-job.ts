import {
  arrangementOf,
  isUnsure,
  lineId,
  partId,
  proposalOperation,
  proposeSplit,
  readNormalised,
  splitFromSnapshot,
} from '../../music/index.ts';
import type { LineId, NoteId, Split } from '../../music/index.ts';
import type { ProposeJob, Proposed } from './jobs.ts';

const pinsOf = (split: Split): ReadonlyMap<NoteId, readonly LineId[]> =>
  new Map([...split.marks].filter(([, mark]) => mark.from === 'person').map(([note, mark]) => [note, mark.lines]));

/** Proposes a split of the chosen parts; people's marks are left as they are. */
export function propose({ normalisedXml, parts, split: snapshot, lineCount, newLineIds }: ProposeJob): Proposed {
  const split = splitFromSnapshot(snapshot);
  const score = arrangementOf(readNormalised(normalisedXml).value, parts.map(partId));
  const names = newLineIds.values();
  const newLineId = (): LineId => {
    const next = names.next();
    if (next.done === true) throw new Error('Heddle bug: a proposal needs more lines than there are names for');
    return lineId(next.value);
  };
  const proposal = proposeSplit(score, {
    lineCount: lineCount ?? undefined,
    pins: pinsOf(split),
    present: new Map([...split.marks].map(([note, mark]) => [note, mark.lines])),
    lines: split.lines,
    newLineId,
  });
  const operation = proposalOperation(split, proposal);
  return {
    kind: 'proposed',
    operation,
    unsureCount: [...proposal.marks.values()].filter(({ confidence }) => isUnsure({ from: 'proposal', confidence }))
      .length,
    changedCount: 'changes' in operation ? operation.changes.length : 0,
  };
}
