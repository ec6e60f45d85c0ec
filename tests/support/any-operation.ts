import fc from 'fast-check';
import { lineId, noteId } from '../../music/basis/ids.ts';
import type { NoteMark, Operation } from '../../music/operations/operation.ts';
import type { Line, LineFace, Split } from '../../music/operations/split.ts';
import { lineNamed, splitOf } from './split-builders.ts';

/** The few names that arbitrary operations use, so that they meet. */
export const ids = { notes: ['n1', 'n2', 'n3', 'n4', 'n5', 'n6'], lines: ['melody', 'bass', 'taps', 'late'] };

/** Three lines with a few notes, and one line retired. `late` is not made yet. */
export const startingSplit: Split = (() => {
  const split = splitOf({ melody: ['n1', 'n2'], bass: ['n3'], taps: ['n4'] });
  return { ...split, lines: split.lines.map((line) => (line.name === 'taps' ? { ...line, isRetired: true } : line)) };
})();

const anyLine = fc.constantFrom(...ids.lines).map(lineId);
const anyMark: fc.Arbitrary<NoteMark> = fc.record({
  lines: fc.uniqueArray(anyLine, { maxLength: 2 }).map((lines) => [...lines].sort()),
  from: fc.constantFrom('person' as const, 'proposal' as const),
  confidence: fc.constantFrom(null, 0.5),
});
const anyChanges = fc.uniqueArray(
  fc.record({ note: fc.constantFrom(...ids.notes).map(noteId), before: anyMark, after: anyMark }),
  {
    selector: ({ note }) => note,
    minLength: 1,
    maxLength: 4,
  },
);
const anyFace: fc.Arbitrary<LineFace> = fc.record({
  name: fc.constantFrom('One', 'Two'),
  role: fc.constantFrom('melody' as const, 'bass' as const),
  dye: fc.constantFrom('madder' as const, 'indigo' as const),
  letter: fc.constantFrom('A', 'B'),
});
const anyOrderKey = fc.constantFrom('a0', 'a1', 'a2', 'a3');

/** Any operation on those few notes and lines, whether or not it can apply. */
export const anyOperation: fc.Arbitrary<Operation> = fc.oneof(
  { weight: 5, arbitrary: fc.record({ kind: fc.constant('markNotes' as const), changes: anyChanges }) },
  fc.record({
    kind: fc.constant('acceptProposal' as const),
    lines: fc.uniqueArray(
      fc.constantFrom(...ids.lines).map((name) => lineNamed(name)),
      { selector: ({ id }) => id, maxLength: 2 },
    ),
    changes: anyChanges.map((changes) =>
      changes.map((change) => ({ ...change, after: { ...change.after, from: 'proposal' as const } })),
    ),
  }),
  fc.record({
    kind: fc.constant('makeLine' as const),
    line: fc.constantFrom('late', 'melody').map((name) => lineNamed(name)),
  }),
  fc.record({ kind: fc.constant('changeLine' as const), line: anyLine, before: anyFace, after: anyFace }),
  fc.record({ kind: fc.constant('reorderLine' as const), line: anyLine, before: anyOrderKey, after: anyOrderKey }),
  fc.record({ kind: fc.constantFrom('retireLine' as const, 'reviveLine' as const), line: anyLine }),
);

/** A split as plain data that two can be compared by: without revisions, and a note on no line by nobody's word left out. Lines that `before` does not have and that are retired are left out too, for lines are never unmade. */
export function comparable(
  split: Split,
  before: Pick<Split, 'lines'> = split,
): { lines: readonly Line[]; marks: unknown } {
  const known = new Set(before.lines.map((line) => line.id));
  const marks = [...split.marks]
    .filter(([, mark]) => mark.lines.length > 0 || mark.from === 'person' || mark.confidence !== null)
    .map(([note, { lines, from, confidence }]) => [note, { lines, from, confidence }] as const)
    .sort(([left], [right]) => (left < right ? -1 : 1));
  const lines = split.lines.filter((line) => known.has(line.id) || !line.isRetired);
  return { lines: [...lines].sort((left, right) => (left.id < right.id ? -1 : 1)), marks };
}
