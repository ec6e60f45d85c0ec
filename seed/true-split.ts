import type { Clock, Desk, Person } from '../api/index.ts';
import {
  activeLines,
  changeLine,
  markNotes,
  operationId,
  readNormalised,
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
}

/** The score of the song as it is stored, and its split as it stands. */
async function presentState({ desk, teacher, songId }: MarkingTask): Promise<{ score: Score; split: Split }> {
  const { xml } = await desk.scores.normalised(teacher, songId);
  return { score: readNormalised(xml).value, split: splitFromSnapshot(await desk.splits.snapshot(teacher, songId)) };
}

async function submit(
  { desk, clock, teacher, songId }: MarkingTask,
  split: Split,
  operation: Operation,
): Promise<void> {
  await desk.splits.submit(teacher, songId, {
    id: operationId(clock.newId()),
    baseRevision: split.revision,
    operation,
  });
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

/** Gives each true line its face: the proposed line that comes nearest takes it, or a new line is made. */
async function faceLines(task: MarkingTask): Promise<Map<string, LineId>> {
  const { score, split } = await presentState(task);
  const truth = trueMarks(task.demo.piece, score).marks;
  const named = new Map<string, LineId>();
  for (const line of task.demo.lines) {
    const proposed = proposedLineFor(line.letter, truth, split, new Set(named.values()));
    if (proposed === null) throw new Error(`The proposal for ${task.demo.title} has no line near its ${line.name}`);
    const operation = changeLine(split, proposed.id, faceOf(line));
    if (operation !== null) await submit(task, split, operation);
    named.set(line.letter, proposed.id);
  }
  return named;
}

/** Puts a song's split right by hand, as its teacher would: the proposal's lines get the piece's own names, and every note is marked. */
export async function markTrueSplit(task: MarkingTask): Promise<void> {
  const named = await faceLines(task);
  const { score } = await presentState(task);
  const { marks } = trueMarks(task.demo.piece, score, (letter) => named.get(letter) as LineId);
  const groups = new Map<string, { notes: NoteId[]; lines: readonly LineId[] }>();
  for (const [note, lines] of marks) {
    const group = groups.get(lines.join()) ?? { notes: [], lines };
    group.notes.push(note);
    groups.set(lines.join(), group);
  }
  for (const { notes, lines } of groups.values()) {
    const { split } = await presentState(task);
    const operation = markNotes(split, notes, lines);
    if (operation !== null) await submit(task, split, operation);
  }
}
