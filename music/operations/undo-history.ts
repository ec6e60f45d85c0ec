import type { NoteId, OperationId } from '../basis/ids.ts';
import type { Subject } from './effect.ts';
import type { Operation } from './operation.ts';
import { narrowOperation } from './registry.ts';
import type { Mark, Split } from './split.ts';

/** One operation of one's own that can be taken back, and what taking it back would do now. */
export interface UndoEntry {
  readonly operationId: OperationId;
  readonly inverse: Operation;
  /** The revision that wrote it; null until the authority has put it in order. */
  readonly revision: number | null;
}

/** What one person can undo and redo, latest last. */
export interface UndoHistory {
  readonly undo: readonly UndoEntry[];
  readonly redo: readonly UndoEntry[];
}

/** Nothing done yet. */
export const emptyHistory: UndoHistory = { undo: [], redo: [] };

const depthLimit = 200;

/** The list with one more entry; the oldest are forgotten beyond 200. */
export const pushed = (entries: readonly UndoEntry[], entry: UndoEntry): readonly UndoEntry[] =>
  [...entries, entry].slice(-depthLimit);

function onBoth(history: UndoHistory, change: (entries: readonly UndoEntry[]) => readonly UndoEntry[]): UndoHistory {
  const undo = change(history.undo);
  const redo = change(history.redo);
  return undo === history.undo && redo === history.redo ? history : { undo, redo };
}

const changedEntries = (
  entries: readonly UndoEntry[],
  change: (entry: UndoEntry) => UndoEntry | null,
): readonly UndoEntry[] => {
  const next = entries.flatMap((entry) => change(entry) ?? []);
  return next.length === entries.length && next.every((entry, index) => entry === entries[index]) ? entries : next;
};

function without(entry: UndoEntry, lost: ReadonlySet<Subject>): UndoEntry | null {
  const inverse = narrowOperation(entry.inverse, (subject) => !lost.has(subject));
  return inverse === null ? null : { ...entry, inverse };
}

/** The history after somebody else wrote these subjects: entries in order already no longer touch them. */
export function overwrittenBy(history: UndoHistory, subjects: readonly Subject[]): UndoHistory {
  if (history.undo.length + history.redo.length === 0) return history;
  const lost = new Set(subjects);
  return onBoth(history, (entries) =>
    changedEntries(entries, (entry) => (entry.revision === null ? entry : without(entry, lost))),
  );
}

/** The history once an operation of one's own is in order. `inverse` restores what it has really overwritten; a redo keeps its aim. */
export function confirmed(
  history: UndoHistory,
  operationId: OperationId,
  revision: number,
  inverse: Operation | null,
): UndoHistory {
  const seen = (entry: UndoEntry, next: Operation): UndoEntry | null => {
    if (entry.operationId !== operationId) return entry;
    const held = narrowOperation(next, () => true);
    return held === null ? null : { ...entry, revision, inverse: held };
  };
  return {
    undo: changedEntries(history.undo, (entry) => seen(entry, inverse ?? entry.inverse)),
    redo: changedEntries(history.redo, (entry) => seen(entry, entry.inverse)),
  };
}

/** The history without an operation that was refused. */
export const forgotten = (history: UndoHistory, operationId: OperationId): UndoHistory =>
  onBoth(history, (entries) => changedEntries(entries, (entry) => (entry.operationId === operationId ? null : entry)));

/** The subjects in which two states of a split differ, a mark by the revision that wrote it. */
export function differingSubjects(before: Split, after: Split): readonly Subject[] {
  const notes = new Set<NoteId>([...before.marks.keys(), ...after.marks.keys()]);
  const isOther = (left: Mark | undefined, right: Mark | undefined): boolean => left?.revision !== right?.revision;
  const changedNotes = [...notes].filter((note) => isOther(before.marks.get(note), after.marks.get(note)));
  const earlier = new Map(before.lines.map((line) => [line.id, line]));
  const lineSubjects = after.lines.flatMap((line): Subject[] => {
    const old = earlier.get(line.id);
    const faces = (['name', 'role', 'dye', 'letter'] as const).filter((key) => old?.[key] !== line[key]);
    return [
      ...faces.map((key): Subject => `face:${line.id}:${key}`),
      ...(old?.isRetired === line.isRetired ? [] : [`life:${line.id}` as const]),
      ...(old?.orderKey === line.orderKey ? [] : [`order:${line.id}` as const]),
    ];
  });
  const newlyMarked = new Set(changedNotes.flatMap((note) => after.marks.get(note)?.lines ?? []));
  return [
    ...changedNotes.map((note): Subject => `note:${note}`),
    ...lineSubjects,
    ...[...newlyMarked].map((id): Subject => `life:${id}`),
  ];
}
