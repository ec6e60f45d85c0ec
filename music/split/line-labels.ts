import type { LineId, NoteId } from '../basis/ids.ts';
import type { EvidencedNote } from './guitar-evidence.ts';
import { matchLines } from './line-matching.ts';
import { mostLines } from './texture.ts';

/** The lines of a split and where notes are on them, as the splitter needs them. */
export interface LinesInUse {
  /** Pitched lines that notes are on, from high to low. */
  readonly lines: readonly LineId[];
  readonly pins: ReadonlyMap<NoteId, readonly LineId[]>;
  readonly present: ReadonlyMap<NoteId, readonly LineId[]>;
}

/** A split told in the splitter's labels. */
export interface LabelledSplit {
  readonly labelOfLine: ReadonlyMap<LineId, number>;
  /** Index of the copy → the label that a person gave it. */
  readonly pins: ReadonlyMap<number, number>;
  /** The label of each copy now, −1 where it has none. **Shape** one entry per copy. */
  readonly present: readonly number[];
}

function votesOf(
  copies: readonly EvidencedNote[],
  unaided: readonly number[],
  { pins, present }: LinesInUse,
  labelCount: number,
): Map<LineId, number[]> {
  const votes = new Map<LineId, number[]>();
  copies.forEach(({ source }, index) => {
    for (const line of pins.get(source.id) ?? present.get(source.id) ?? []) {
      const counts = votes.get(line) ?? new Array<number>(labelCount).fill(0);
      const label = unaided[index] as number;
      counts[label] = (counts[label] as number) + 1;
      votes.set(line, counts);
    }
  });
  return votes;
}

/** The label of one copy of a note that is on these lines: that of the unaided answer where it is among them; the second copy of a note on two lines has the other. */
function labelFor(labels: readonly number[], unaided: number, before: number | undefined): number {
  const left = labels.length > 1 ? labels.filter((label) => label !== before) : labels;
  return left.includes(unaided) ? unaided : (left[0] ?? -1);
}

/** The lines in use with a label each: that of the unaided line that most of their notes are on, as far as those go round. */
export function labelledSplit(
  copies: readonly EvidencedNote[],
  unaided: readonly number[],
  foundCount: number,
  inUse: LinesInUse,
): LabelledSplit {
  const lines = inUse.lines.slice(0, mostLines);
  const labelCount = Math.max(foundCount, lines.length);
  const labelOfLine = matchLines(lines, votesOf(copies, unaided, inUse, labelCount), labelCount);
  const given = new Map<NoteId, number>();
  const pins = new Map<number, number>();
  const present = copies.map(({ source }, index) => {
    const pinned = inUse.pins.get(source.id);
    const labels = (pinned ?? inUse.present.get(source.id) ?? []).flatMap((line) => labelOfLine.get(line) ?? []);
    const label = labelFor(labels, unaided[index] as number, given.get(source.id));
    given.set(source.id, label);
    if (pinned !== undefined && label !== -1) pins.set(index, label);
    return label;
  });
  return { labelOfLine, pins, present };
}
