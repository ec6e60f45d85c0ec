import {
  notesOfOperation,
  operationId,
  Replica,
  splitFromSnapshot,
  type Operation,
  type OperationId,
  type OrderedOperation,
  type Submission,
} from '../../../music/index.ts';
import { PROTOCOL_VERSION, type ClientMessage, type ServerMessage } from '../../../contract/index.ts';
import type { RoomSocket } from './room-socket.ts';
import type { Arrival, RoomPeer, RoomSaveState, RoomState } from './room-state.ts';
import { Throttle, type Timers } from './throttle.ts';
import type { UnsentStore } from './unsent-store.ts';

type Presence = (ClientMessage & { readonly type: 'presence' })['presence'];

/** What a room client is made with. */
export interface RoomSetup {
  readonly songId: string;
  readonly person: { readonly id: string };
  readonly socket: RoomSocket;
  readonly store: UnsentStore;
  readonly newId: () => OperationId;
  readonly timers: Timers;
}

const presenceGapMs = 100;
const arrivalMs = 6000;

/** One seat at a splitting table: keeps a replica of the split, sends one's own work and takes in others'. */
export class RoomClient {
  readonly #setup: RoomSetup;
  readonly #listeners = new Set<() => void>();
  readonly #presence: Throttle<Presence>;
  #replica: Replica;
  #state: RoomState;
  #connection: string | null = null;
  #isJoined = false;
  #isLoaded = false;
  #peers: readonly RoomPeer[] = [];
  #arrivals: readonly Arrival[] = [];
  #refusal: RoomState['refusal'] = null;
  #saving: Promise<void> = Promise.resolve();
  #savedWork = '';

  constructor(setup: RoomSetup) {
    this.#setup = setup;
    this.#replica = this.#replicaWith();
    this.#presence = new Throttle(presenceGapMs, setup.timers, (presence) =>
      this.#send({ type: 'presence', songId: setup.songId, presence }),
    );
    this.#state = this.#snapshot();
  }

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => void this.#listeners.delete(listener);
  };

  readonly getSnapshot = (): RoomState => this.#state;

  /** Takes up unsent work, then connects. */
  async start(): Promise<void> {
    const unsent = await this.#setup.store.load();
    this.#replica = this.#replicaWith(unsent);
    this.#savedWork = JSON.stringify(unsent);
    this.#changed();
    this.#setup.socket.listen({
      onOpen: (connection) => {
        this.#connection = connection;
        this.#join();
      },
      onMessage: (message) => this.#receive(message),
      onClose: () => {
        this.#connection = null;
        this.#isJoined = false;
        this.#peers = [];
        this.#changed();
      },
    });
  }

  /** Shows an operation at once and sends it; says why not where it cannot be applied here. */
  submit(operation: Operation): { readonly isTaken: boolean; readonly detail: string } {
    const submitted = this.#replica.localSubmit(operation);
    if (!submitted.ok) return { isTaken: false, detail: submitted.refusal.detail };
    this.#sendSubmission(submitted.value);
    this.#changed();
    return { isTaken: true, detail: '' };
  }

  undo(): void {
    this.#sendTakenBack(this.#replica.undo());
  }

  redo(): void {
    this.#sendTakenBack(this.#replica.redo());
  }

  /** Tells others where one is and what one has chosen; at most ten times a second. */
  setPresence(presence: Presence): void {
    this.#presence.offer(presence);
  }

  dismissRefused(id: OperationId): void {
    this.#replica.dismissRefused(id);
    this.#changed();
  }

  dismissLostMarks(): void {
    this.#replica.dismissLostMarks();
    this.#changed();
  }

  /** Leaves the table; unsent work stays stored. */
  leave(): void {
    this.#presence.stop();
    if (this.#isJoined) this.#send({ type: 'leave', songId: this.#setup.songId });
    this.#setup.socket.close();
    this.#listeners.clear();
  }

  #replicaWith(unsent?: Awaited<ReturnType<UnsentStore['load']>>): Replica {
    const { person, newId } = this.#setup;
    return new Replica({ person: person.id, newId, ...(unsent === undefined ? {} : { unsent }) });
  }

  #send(message: ClientMessage): void {
    if (this.#connection !== null) this.#setup.socket.send(message);
  }

  #join(): void {
    this.#isJoined = false;
    this.#send({
      type: 'join',
      protocol: PROTOCOL_VERSION,
      songId: this.#setup.songId,
      knownRevision: this.#replica.knownRevision,
    });
  }

  #sendSubmission(submission: Submission): void {
    if (this.#isJoined) this.#send({ type: 'submit', songId: this.#setup.songId, submission });
  }

  #sendTakenBack(submission: Submission | null): void {
    if (submission !== null) this.#sendSubmission(submission);
    this.#changed();
  }

  #receive(message: ServerMessage): void {
    if (message.songId !== this.#setup.songId) return;
    switch (message.type) {
      case 'snapshot':
        this.#replica.receiveSnapshot(splitFromSnapshot(message.snapshot));
        this.#answered(message.peers);
        break;
      case 'catchUp':
        this.#replica.receiveCatchUp(message.operations);
        this.#answered(message.peers);
        break;
      case 'ordered':
        this.#receiveOrdered(message.operation);
        break;
      case 'refused':
        if (message.operationId === null) this.#refusal = { code: message.code, detail: message.detail };
        else this.#replica.receiveRefusal(operationId(message.operationId), message.code, message.detail);
        break;
      case 'peers':
        this.#peers = this.#others(message.peers);
        break;
    }
    this.#changed();
  }

  #answered(peers: readonly RoomPeer[]): void {
    if (this.#replica.needsRejoin) {
      this.#join();
      return;
    }
    this.#isJoined = true;
    this.#isLoaded = true;
    this.#refusal = null;
    this.#peers = this.#others(peers);
    for (const submission of this.#replica.pending) this.#sendSubmission(submission);
    this.#presence.again();
  }

  #others(peers: readonly RoomPeer[]): readonly RoomPeer[] {
    return peers.filter((peer) => peer.connectionId !== this.#connection && peer.personId !== this.#setup.person.id);
  }

  #receiveOrdered(operation: OrderedOperation & { readonly byName: string }): void {
    this.#replica.receiveOrdered(operation);
    if (this.#replica.needsRejoin) {
      this.#join();
      return;
    }
    if (operation.by === this.#setup.person.id) return;
    const { revision, by, byName } = operation;
    const arrival = { revision, personId: by, name: byName, notes: notesOfOperation(operation.operation) };
    this.#arrivals = [...this.#arrivals, arrival];
    this.#setup.timers.after(arrivalMs, () => {
      this.#arrivals = this.#arrivals.filter((known) => known !== arrival);
      this.#changed();
    });
  }

  #changed(): void {
    this.#state = this.#snapshot();
    this.#store();
    for (const listener of this.#listeners) listener();
  }

  #snapshot(): RoomState {
    return {
      split: this.#replica.view(),
      isLoaded: this.#isLoaded,
      peers: this.#peers,
      saveState: this.#saveState(),
      canUndo: this.#replica.canUndo,
      canRedo: this.#replica.canRedo,
      arrivals: this.#arrivals,
      tray: this.#replica.tray,
      lostMarks: this.#replica.lostMarks,
      refusal: this.#refusal,
    };
  }

  #saveState(): RoomSaveState {
    const { pending } = this.#replica;
    if (this.#isJoined) return pending.length === 0 ? { kind: 'saved' } : { kind: 'saving' };
    const notes = new Set(pending.flatMap((submission) => notesOfOperation(submission.operation)));
    return { kind: 'waiting', count: Math.max(notes.size, pending.length) };
  }

  #store(): void {
    const work = this.#replica.unsent;
    const text = JSON.stringify(work);
    if (text === this.#savedWork) return;
    this.#savedWork = text;
    this.#saving = this.#saving
      .then(() => this.#setup.store.save(work))
      .catch((error: unknown) => console.error('Unsent marks could not be kept in this browser.', error));
  }
}
