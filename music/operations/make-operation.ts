import type { LineId, NoteId } from '../basis/ids.ts';
import { lineOf, noteMarkOf } from './effect.ts';
import type { NoteChange, Operation } from './operation.ts';
import type { LineFace, Split } from './split.ts';

const isSameSet = (left: readonly LineId[], right: readonly LineId[]): boolean =>
  left.length === right.length && left.every((id) => right.includes(id));

/** A person's mark that puts each note on exactly these lines; null where every note already says so by a person's word. */
export function markNotes(
  split: Pick<Split, 'marks'>,
  notes: readonly NoteId[],
  lines: readonly LineId[],
): Operation | null {
  const changes = [...new Set(notes)].flatMap((note): readonly NoteChange[] => {
    const before = noteMarkOf(split, note);
    if (before.from === 'person' && isSameSet(before.lines, lines)) return [];
    return [{ note, before, after: { lines: [...lines].sort(), from: 'person', confidence: null } }];
  });
  return changes.length === 0 ? null : { kind: 'markNotes', changes };
}

/** The change that gives a line this face; null where the line is unknown or already has it. */
export function changeLine(split: Pick<Split, 'lines'>, line: LineId, after: LineFace): Operation | null {
  const present = lineOf(split, line);
  if (present === undefined) return null;
  const { name, role, dye, letter } = present;
  const isSame = name === after.name && role === after.role && dye === after.dye && letter === after.letter;
  return isSame ? null : { kind: 'changeLine', line, before: { name, role, dye, letter }, after };
}
