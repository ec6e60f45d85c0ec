import { generateKeyBetween } from 'fractional-indexing';
import type { Clock, Desk, Person } from '../api/index.ts';
import {
  activeLines,
  changeLine,
  lineId,
  markNotes,
  operationId,
  splitFromSnapshot,
  type Line,
  type LineId,
  type NoteId,
  type Operation,
  type Score,
  type Split,
} from '../music/index.ts';
import type { DemoPiece } from './demo-pieces.ts';
import type { PieceLine } from './form/piece.ts';
import { trueMarks } from './true-marks.ts';

/** Who marks, on which song, with what. */
export interface MarkingTask {
  readonly desk: Desk;
  readonly clock: Pick<Clock, 'newId'>;
  readonly teacher: Person;
  readonly songId: string;
  readonly demo: DemoPiece;
  /** The song's score as it is stored. */
  readonly score: Score;
}

const presentSplit = async ({ desk, teacher, songId }: MarkingTask): Promise<Split> =>
  splitFromSnapshot(await desk.splits.snapshot(teacher, songId));

async function submit(task: MarkingTask, { revision }: Split, operation: Operation): Promise<void> {
  const { desk, clock, teacher, songId } = task;
  await desk.splits.submit(teacher, songId, { id: operationId(clock.newId()), baseRevision: revision, operation });
}

/** The line of the split that holds most of the notes that truly belong to a line, unless another has claimed it. */
function proposedLineFor(
  letter: string,
  truth: ReadonlyMap<NoteId, readonly string[]>,
  split: Split,
  claimed: ReadonlySet<LineId>,
): Line | null {
  const sharedWith = (line: Line): number =>
    [...truth].filter(
      ([note, letters]) => letters.includes(letter) && split.marks.get(note)?.lines.includes(line.id) === true,
    ).length;
  const free = activeLines(split).filter((line) => !claimed.has(line.id));
  const best = free.sort((a, b) => sharedWith(b) - sharedWith(a))[0];
  return best !== undefined && sharedWith(best) > 0 ? best : null;
}

const faceOf = ({ name, role, dye, letter }: PieceLine): Pick<PieceLine, 'name' | 'role' | 'dye' | 'letter'> => ({
  name,
  role,
  dye,
  letter,
});

/** A line that the proposal has not found, listed after all others. */
function missingLine({ clock }: MarkingTask, { lines }: Split, face: PieceLine): Line {
  const last =
    lines
      .map(({ orderKey }) => orderKey)
      .sort()
      .at(-1) ?? null;
  return { ...faceOf(face), id: lineId(clock.newId()), orderKey: generateKeyBetween(last, null), isRetired: false };
}

/** Gives each true line its face: the proposed line that comes nearest takes it, or a new line is made. */
async function faceLines(task: MarkingTask): Promise<Map<string, LineId>> {
  const before = await presentSplit(task);
  const truth = trueMarks(task.demo.piece, task.score).marks;
  const named = new Map<string, LineId>();
  for (const face of task.demo.lines) {
    const split = await presentSplit(task);
    const proposed = proposedLineFor(face.letter, truth, before, new Set(named.values()));
    const line = proposed ?? missingLine(task, split, face);
    const operation: Operation | null =
      proposed === null ? { kind: 'makeLine', line } : changeLine(split, line.id, faceOf(face));
    if (operation !== null) await submit(task, split, operation);
    named.set(face.letter, line.id);
  }
  return named;
}

async function retireOthers(task: MarkingTask, kept: ReadonlySet<LineId>): Promise<void> {
  const split = await presentSplit(task);
  for (const { id } of activeLines(split).filter((line) => !kept.has(line.id)))
    await submit(task, split, { kind: 'retireLine', line: id });
}

/** Puts a song's split right by hand, as its teacher would: the proposal's lines get the piece's own names, and every note is marked. */
export async function markTrueSplit(task: MarkingTask): Promise<void> {
  const named = await faceLines(task);
  const { marks } = trueMarks(task.demo.piece, task.score, (letter) => named.get(letter) as LineId);
  const groups = new Map<string, { notes: NoteId[]; lines: readonly LineId[] }>();
  for (const [note, lines] of marks) {
    const group = groups.get(lines.join()) ?? { notes: [], lines };
    group.notes.push(note);
    groups.set(lines.join(), group);
  }
  for (const { notes, lines } of groups.values()) {
    const split = await presentSplit(task);
    const operation = markNotes(split, notes, lines);
    if (operation !== null) await submit(task, split, operation);
  }
  await retireOthers(task, new Set(named.values()));
}
