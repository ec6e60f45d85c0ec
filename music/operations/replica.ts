import type { OperationId } from '../basis/ids.ts';
import { ok, type Result } from '../basis/result.ts';
import { applyEffect, type OperationRefusal } from './effect.ts';
import { lostTo, type LostMark } from './lost-marks.ts';
import type { Operation, OrderedOperation, Submission } from './operation.ts';
import { applyOperation, effectOf, invertOperation, notesOfOperation, subjectsOf } from './registry.ts';
import { emptySplit, type Split } from './split.ts';
import {
  confirmed,
  differingSubjects,
  emptyHistory,
  forgotten,
  overwrittenBy,
  pushed,
  type UndoHistory,
} from './undo-history.ts';

/** A submission that was refused, and why; kept until its author lets it go. */
export interface RefusedSubmission {
  readonly submission: Submission;
  readonly code: string;
  readonly detail: string;
}

/** What outlives a reload: plain data, to be stored whole whenever it changed. */
export interface UnsentWork {
  readonly pending: readonly Submission[];
  readonly tray: readonly RefusedSubmission[];
}

/** What a replica is made with. */
export interface ReplicaSetup {
  /** The id of the person whose table this is. */
  readonly person: string;
  readonly newId: () => OperationId;
  readonly unsent?: UnsentWork;
}

/** One table's copy of a split: the confirmed state, and one's own unconfirmed operations on top. It sends and waits for nothing; its owner carries what it returns. */
export class Replica {
  readonly #person: string;
  readonly #newId: () => OperationId;
  readonly #ownRevisions = new Set<number>();
  #confirmed: Split = emptySplit;
  #knownRevision: number | null = null;
  #pending: readonly Submission[];
  #tray: readonly RefusedSubmission[];
  #lostMarks: readonly LostMark[] = [];
  #history: UndoHistory = emptyHistory;
  #needsRejoin = true;
  /** The newest revision that news have told of, taken in or not. */
  #toldRevision = 0;
  #view: Split | null = null;

  constructor(setup: ReplicaSetup) {
    this.#person = setup.person;
    this.#newId = setup.newId;
    this.#pending = setup.unsent?.pending ?? [];
    this.#tray = setup.unsent?.tray ?? [];
  }

  /** The confirmed state, without one's own unconfirmed operations. */
  get confirmed(): Split {
    return this.#confirmed;
  }

  /** One's own operations that the authority has not put in order yet, oldest first; send each again after every join. */
  get pending(): readonly Submission[] {
    return this.#pending;
  }

  /** What was refused and not let go yet. */
  get tray(): readonly RefusedSubmission[] {
    return this.#tray;
  }

  /** Own marks that others overwrote without having seen them, until dismissed. */
  get lostMarks(): readonly LostMark[] {
    return this.#lostMarks;
  }

  /** What to store so that a reload loses nothing. */
  get unsent(): UnsentWork {
    return { pending: this.#pending, tray: this.#tray };
  }

  /** The revision to join with; null where nothing is held. */
  get knownRevision(): number | null {
    return this.#knownRevision;
  }

  /** Nothing is held yet, or a revision was missed: join again with `knownRevision`. */
  get needsRejoin(): boolean {
    return this.#needsRejoin;
  }

  get canUndo(): boolean {
    return this.#history.undo.length > 0;
  }

  get canRedo(): boolean {
    return this.#history.redo.length > 0;
  }

  /** The split as it is to be shown; the same object until something changes. */
  view(): Split {
    this.#view ??= this.#pending.reduce<Split>((split, { operation }, index) => {
      const next = applyOperation(split, operation, this.#confirmed.revision + index + 1);
      return next.ok ? next.value : split;
    }, this.#confirmed);
    return this.#view;
  }

  /** Puts an operation on top and returns the submission to send. **Errors** those of `applyOperation`; then nothing has changed. */
  localSubmit(operation: Operation): Result<Submission, OperationRefusal> {
    const before = this.view();
    const submitted = this.#submit(operation);
    if (submitted.ok) {
      const entry = { operationId: submitted.value.id, inverse: invertOperation(before, operation), revision: null };
      this.#history = { undo: pushed(this.#history.undo, entry), redo: [] };
    }
    return submitted;
  }

  /** Takes back one's latest operation where its marks still stand; null where nothing is left to take back. */
  undo(): Submission | null {
    return this.#takeBack('undo', 'redo');
  }

  /** Does again what was last undone, where nobody has written there since; null where nothing is left. */
  redo(): Submission | null {
    return this.#takeBack('redo', 'undo');
  }

  /** Takes in one operation in order. Known ones only acknowledge; a gap asks to join again. */
  receiveOrdered(ordered: OrderedOperation): void {
    this.#toldRevision = Math.max(this.#toldRevision, ordered.revision);
    if (this.#knownRevision === null) this.#needsRejoin = true;
    else if (ordered.revision <= this.#confirmed.revision) this.#acknowledge(ordered);
    else if (ordered.revision > this.#confirmed.revision + 1) this.#needsRejoin = true;
    else this.#append(ordered);
  }

  /** Takes in every operation since `knownRevision`, as the answer to a join. */
  receiveCatchUp(operations: readonly OrderedOperation[]): void {
    this.#needsRejoin = false;
    this.#knownRevision ??= this.#confirmed.revision;
    for (const ordered of operations) this.receiveOrdered(ordered);
    this.#askForWhatIsMissing();
  }

  /** Takes in the whole split in place of what was held; one's own unconfirmed operations stay on top. */
  receiveSnapshot(split: Split): void {
    this.#history = overwrittenBy(this.#history, differingSubjects(this.#confirmed, split));
    this.#confirmed = split;
    this.#knownRevision = split.revision;
    this.#needsRejoin = false;
    this.#view = null;
    this.#askForWhatIsMissing();
  }

  /** Moves a refused submission into the tray; one that is not pending changes nothing. */
  receiveRefusal(operationId: OperationId, code: string, detail: string): void {
    const submission = this.#pending.find(({ id }) => id === operationId);
    if (submission === undefined) return;
    this.#dropPending(operationId);
    this.#tray = [...this.#tray, { submission, code, detail }];
    this.#history = forgotten(this.#history, operationId);
  }

  /** Lets one refused submission go. */
  dismissRefused(operationId: OperationId): void {
    this.#tray = this.#tray.filter(({ submission }) => submission.id !== operationId);
  }

  /** Lets the news of lost marks go. */
  dismissLostMarks(): void {
    this.#lostMarks = [];
  }

  #submit(operation: Operation): Result<Submission, OperationRefusal> {
    const before = this.view();
    const next = applyOperation(before, operation, this.#confirmed.revision + this.#pending.length + 1);
    if (!next.ok) return next;
    const submission = { id: this.#newId(), baseRevision: this.#confirmed.revision, operation };
    this.#pending = [...this.#pending, submission];
    this.#view = next.value;
    return ok(submission);
  }

  #takeBack(from: 'undo' | 'redo', to: 'undo' | 'redo'): Submission | null {
    const entry = this.#history[from].at(-1);
    if (entry === undefined) return null;
    const inverse = invertOperation(this.view(), entry.inverse);
    const submitted = this.#submit(entry.inverse);
    const rest = this.#history[from].slice(0, -1);
    if (!submitted.ok) {
      this.#history = { ...this.#history, [from]: rest };
      return this.#takeBack(from, to);
    }
    const answer = { operationId: submitted.value.id, inverse, revision: null };
    this.#history = { ...this.#history, [from]: rest, [to]: pushed(this.#history[to], answer) };
    return submitted.value;
  }

  /** News may overtake the answer to a join. One that is told of and still missing is asked for once. */
  #askForWhatIsMissing(): void {
    if (this.#toldRevision > this.#confirmed.revision) this.#needsRejoin = true;
    this.#toldRevision = this.#confirmed.revision;
  }

  #append(ordered: OrderedOperation): void {
    const split = this.#confirmed;
    const effect = effectOf(split, ordered.operation, ordered.revision);
    if (!effect.ok) {
      this.#knownRevision = null;
      this.#needsRejoin = true;
      return;
    }
    if (this.#pending.some(({ id }) => id === ordered.id) && ordered.by === this.#person) {
      const inverse = invertOperation(split, ordered.operation);
      this.#history = confirmed(this.#history, ordered.id, ordered.revision, inverse);
      this.#dropPending(ordered.id);
    } else {
      const isOthers = ordered.by !== this.#person;
      const lost = isOthers ? lostTo(split, ordered, effect.value, this.#ownRevisions) : [];
      if (lost.length > 0) this.#lostMarks = [...this.#lostMarks, ...lost];
      this.#history = overwrittenBy(this.#history, subjectsOf(split, ordered.operation));
    }
    if (ordered.by === this.#person) this.#settleOwn(ordered);
    this.#confirmed = applyEffect(split, effect.value, ordered.revision);
    this.#knownRevision = ordered.revision;
    this.#view = null;
  }

  #acknowledge(ordered: OrderedOperation): void {
    if (ordered.by !== this.#person) return;
    this.#settleOwn(ordered);
    if (!this.#pending.some(({ id }) => id === ordered.id)) return;
    this.#dropPending(ordered.id);
    this.#history = confirmed(this.#history, ordered.id, ordered.revision, null);
    const newer = notesOfOperation(ordered.operation).filter(
      (note) => (this.#confirmed.marks.get(note)?.revision ?? 0) > ordered.revision,
    );
    this.#history = overwrittenBy(
      this.#history,
      newer.map((note) => `note:${note}` as const),
    );
  }

  /** What was sent twice may be refused the first time and written the second: then it was written. */
  #settleOwn({ id, revision }: OrderedOperation): void {
    this.#ownRevisions.add(revision);
    if (this.#tray.some(({ submission }) => submission.id === id)) this.dismissRefused(id);
  }

  #dropPending(operationId: OperationId): void {
    this.#pending = this.#pending.filter(({ id }) => id !== operationId);
    this.#view = null;
  }
}
