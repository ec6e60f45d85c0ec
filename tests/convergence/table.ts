import { operationId, type NoteId, type OperationId } from '../../music/basis/ids.ts';
import { judge } from '../../music/operations/authority.ts';
import { applyEffect } from '../../music/operations/effect.ts';
import type { Operation, OrderedOperation, Submission } from '../../music/operations/operation.ts';
import { Replica } from '../../music/operations/replica.ts';
import { snapshotOf, splitFromSnapshot, type SplitSnapshot } from '../../music/operations/snapshot.ts';
import type { Split } from '../../music/operations/split.ts';

type Down =
  | { readonly type: 'ordered'; readonly ordered: OrderedOperation }
  | { readonly type: 'catchUp'; readonly operations: readonly OrderedOperation[] }
  | { readonly type: 'snapshot'; readonly snapshot: SplitSnapshot }
  | { readonly type: 'refused'; readonly id: OperationId; readonly code: string; readonly detail: string };

type Up =
  | { readonly type: 'join'; readonly knownRevision: number | null; readonly wantsSnapshot: boolean }
  | { readonly type: 'submit'; readonly submission: Submission };

/** Whatever crosses a wire is copied through JSON, so that no two ends share an object. */
const acrossTheWire = <Message>(message: Message): Message => JSON.parse(JSON.stringify(message)) as Message;

/** One person's table, with the two queues that join it to the authority. */
export class Seat {
  readonly up: Up[] = [];
  readonly down: Down[] = [];
  readonly person: string;
  readonly submitted: Submission[] = [];
  replica: Replica;
  isConnected = true;
  #isJoining = false;
  #made = 0;

  constructor(person: string) {
    this.person = person;
    this.replica = this.#newReplica();
    this.join(false);
  }

  #newReplica(unsent?: Replica['unsent']): Replica {
    const newId = (): OperationId => operationId(`${this.person}-${(this.#made += 1)}`);
    return new Replica({
      person: this.person,
      newId,
      ...(unsent === undefined ? {} : { unsent: acrossTheWire(unsent) }),
    });
  }

  join(wantsSnapshot: boolean): void {
    this.#isJoining = true;
    this.up.push({ type: 'join', knownRevision: this.replica.knownRevision, wantsSnapshot });
    for (const submission of this.replica.pending) this.up.push({ type: 'submit', submission });
  }

  do(operation: Operation): void {
    const submitted = this.replica.localSubmit(operation);
    if (submitted.ok) this.send(submitted.value);
  }

  send(submission: Submission | null): void {
    if (submission === null) return;
    this.submitted.push(submission);
    if (this.isConnected) this.up.push({ type: 'submit', submission });
  }

  disconnect(): void {
    this.isConnected = false;
    this.up.length = 0;
    this.down.length = 0;
  }

  reconnect(wantsSnapshot: boolean): void {
    if (this.isConnected) return;
    this.isConnected = true;
    this.join(wantsSnapshot);
  }

  /** The page is loaded anew: all that is left is what was stored. */
  reload(): void {
    this.disconnect();
    this.replica = this.#newReplica(this.replica.unsent);
  }

  receive(): void {
    const message = this.down.shift();
    if (message === undefined) return;
    const wasWhole = !this.replica.needsRejoin;
    if (message.type === 'ordered') this.replica.receiveOrdered(message.ordered);
    else if (message.type === 'catchUp') this.replica.receiveCatchUp(message.operations);
    else if (message.type === 'snapshot') this.replica.receiveSnapshot(splitFromSnapshot(message.snapshot));
    else this.replica.receiveRefusal(message.id, message.code, message.detail);
    if (message.type === 'catchUp' || message.type === 'snapshot') this.#isJoining = false;
    if (this.replica.needsRejoin && (wasWhole || !this.#isJoining)) this.join(false);
  }
}

/** The one who orders, and everybody at the table; nothing moves until a test says so. */
export class Table {
  split: Split;
  readonly start: Split;
  readonly log: OrderedOperation[] = [];
  readonly seats: readonly Seat[];
  readonly #hasNote: (note: NoteId) => boolean;

  constructor(start: Split, people: readonly string[], hasNote: (note: NoteId) => boolean = () => true) {
    this.start = { ...start, revision: 0 };
    this.split = this.start;
    this.seats = people.map((person) => new Seat(person));
    this.#hasNote = hasNote;
  }

  /** The authority takes one message of a seat. */
  takeFrom(seat: Seat): void {
    const message = seat.up.shift();
    if (message === undefined) return;
    if (message.type === 'join') this.#answerJoin(seat, message);
    else this.#answerSubmission(seat, acrossTheWire(message.submission));
  }

  /** Delivers everything, both ways, until all is quiet. */
  settle(): void {
    while (this.seats.some(({ up, down }) => up.length + down.length > 0)) {
      for (const seat of this.seats) {
        while (seat.up.length > 0) this.takeFrom(seat);
        while (seat.down.length > 0) seat.receive();
      }
    }
  }

  #answerJoin(seat: Seat, { knownRevision, wantsSnapshot }: Extract<Up, { type: 'join' }>): void {
    if (knownRevision === null || wantsSnapshot) {
      seat.down.push(acrossTheWire({ type: 'snapshot', snapshot: snapshotOf(this.split) }));
    } else {
      seat.down.push(acrossTheWire({ type: 'catchUp', operations: this.log.slice(knownRevision) }));
    }
  }

  #answerSubmission(seat: Seat, submission: Submission): void {
    const first = this.log.find(({ id, by }) => id === submission.id && by === seat.person) ?? null;
    const verdict = judge({ split: this.split, submission, first, hasNote: this.#hasNote });
    if (verdict.kind === 'duplicate') seat.down.push(acrossTheWire({ type: 'ordered', ordered: verdict.first }));
    else if (verdict.kind === 'refused') seat.down.push({ type: 'refused', id: submission.id, ...verdict.refusal });
    else {
      const ordered = { ...submission, revision: verdict.revision, by: seat.person, byName: seat.person.toUpperCase() };
      this.split = applyEffect(this.split, verdict.effect, verdict.revision);
      this.log.push(ordered);
      for (const other of this.seats)
        if (other.isConnected) other.down.push(acrossTheWire({ type: 'ordered', ordered }));
    }
  }
}
