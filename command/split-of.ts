import {
  applyOperation,
  arrangementOf,
  defaultArrangement,
  emptySplit,
  lineId,
  partId,
  proposalOperation,
  proposeSplit,
  type PartId,
  type Score,
  type Split,
} from '../music/index.ts';
import { textOption, wholeOption, type Command, type Given } from './command.ts';
import { WrongUse } from './failures.ts';
import { listed } from './say.ts';

const mostLines = 8;

/** The options of every command that splits a score into lines. */
export const splitOptions = {
  lines: { type: 'string' },
  parts: { type: 'string' },
} as const satisfies Command['options'];

/** What the help says about the choice of parts. */
export const partsDetails =
  '--parts A,B  the parts that are meant, by id; otherwise those that look like a guitar, else all';

/** What the help says about them all. */
export const splitDetails = `--lines N    how many pitched lines, 1 to ${mostLines}; found from the music otherwise
${partsDetails}`;

/** The notes that are split and the lines that were proposed for them. */
export interface SplitFound {
  readonly arrangement: Score;
  readonly split: Split;
}

/** The parts that are meant. **Errors** `WrongUse`. */
export function chosenParts(score: Score, given: Given): readonly PartId[] {
  const text = textOption(given, 'parts');
  if (text === undefined) return defaultArrangement(score);
  const named = new Set(text.split(',').map((id) => id.trim()));
  const parts = [...named].map(partId);
  const unknown = parts.filter((id) => !score.parts.some((part) => part.id === id));
  if (unknown.length > 0) {
    const there = listed(score.parts.map(({ id, name }) => (name === '' ? id : `${id} (${name})`)));
    throw new WrongUse(
      `--parts: there is no part ${listed(
        unknown.map((id) => (id === '' ? 'without a name' : id)),
        'or',
      )}; there are ${there}.`,
    );
  }
  return parts;
}

/** The lines that Heddle proposes for a score, as the splitting table would get them. **Errors** `WrongUse`. */
export function splitOf(score: Score, given: Given): SplitFound {
  const lineCount = wholeOption(given, 'lines', 1, mostLines);
  const arrangement = arrangementOf(score, chosenParts(score, given));
  let made = 0;
  const newLineId = () => lineId(`line-${++made}`);
  const proposal = proposeSplit(arrangement, { lineCount, pins: new Map(), lines: [], newLineId });
  const accepted = applyOperation(emptySplit, proposalOperation(emptySplit, proposal), 1);
  if (!accepted.ok) throw new Error(`A fresh proposal was refused: ${JSON.stringify(accepted.refusal)}`);
  return { arrangement, split: accepted.value };
}
