import { linesOfNote, type LineId, type NoteId, type Operation, type Split } from '../../../music/index.ts';
import type { SameThere } from './same-there.ts';

/** What the tool suggests at present, to be followed or left. */
export interface Suggestion {
  readonly operation: Operation;
  /** The notes that would come to other lines; notes of which it is only surer than before are not among them. */
  readonly follows: ReadonlySet<NoteId>;
  /** `asked`: a person asked for it; `offered`: it came by itself after a correction; `same`: what was done in one bar, done in those like it. */
  readonly from: 'asked' | 'offered' | 'same';
  /** Too much to be shown unasked: it is only told, until somebody wants to see it. */
  readonly isFolded: boolean;
}

/** What people have left: the lines that a note was not to go to. */
export type LeftNotes = ReadonlyMap<NoteId, string>;

const linesKey = (lines: readonly LineId[]): string => [...lines].sort().join(' ');

/** A proposal as a suggestion: without what people marked, and without what was left before. */
export function suggestionOf(
  proposed: Operation,
  split: Split,
  left: LeftNotes,
  from: 'asked' | 'offered',
): Suggestion | null {
  if (proposed.kind !== 'acceptProposal') return null;
  const changes = proposed.changes.filter(
    ({ note, after }) => split.marks.get(note)?.from !== 'person' && (left.get(note) ?? null) !== linesKey(after.lines),
  );
  const moved = changes.filter(({ note, after }) => linesKey(after.lines) !== linesKey(linesOfNote(split, note)));
  const used = new Set(changes.flatMap(({ after }) => after.lines));
  return {
    operation: { ...proposed, changes, lines: proposed.lines.filter((line) => used.has(line.id)) },
    follows: new Set(moved.map(({ note }) => note)),
    from,
    isFolded: false,
  };
}

/** The same deed in like bars, as a suggestion. */
export const suggestionOfSame = ({ operation, follows }: SameThere): Suggestion => ({
  operation,
  follows,
  from: 'same',
  isFolded: false,
});

/** A suggestion as it stands after somebody else's changes, until it is worked out again; null where it no longer does. */
export function stillStanding(suggestion: Suggestion, split: Split): Suggestion | null {
  const { operation, from } = suggestion;
  if (operation.kind !== 'acceptProposal' || from === 'same') return null;
  const retired = new Set(split.lines.filter((line) => line.isRetired).map((line) => line.id));
  if (operation.changes.some(({ after }) => after.lines.some((line) => retired.has(line)))) return null;
  const found = suggestionOf(operation, split, new Map(), from);
  return found === null || found.follows.size === 0 ? null : { ...suggestion, ...found, isFolded: suggestion.isFolded };
}

/** What is left once a suggestion was not taken. */
export function leaving(left: LeftNotes, { operation, follows }: Suggestion): LeftNotes {
  if (operation.kind !== 'acceptProposal') return left;
  const more = operation.changes
    .filter(({ note }) => follows.has(note))
    .map(({ note, after }) => [note, linesKey(after.lines)] as const);
  return new Map([...left, ...more]);
}

/** The largest share of a song that is shown unasked: one correction that would turn more of it over is more likely to be an exception. */
const mostOffered = 0.25;

/** Whether a suggestion is small and plain enough to be shown after a correction: it makes no line and leaves most of the song alone. */
export const isPlain = ({ operation, follows }: Suggestion, noteCount: number): boolean =>
  follows.size <= noteCount * mostOffered && (operation.kind !== 'acceptProposal' || operation.lines.length === 0);
