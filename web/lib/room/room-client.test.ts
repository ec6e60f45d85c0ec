import { beforeEach, expect, test } from 'vitest';
import {
  applyOperation,
  emptySplit,
  judge,
  lineId,
  markNotes,
  noteId,
  operationId,
  snapshotOf,
  type Line,
  type OrderedOperation,
  type Split,
  type Submission,
  type UnsentWork,
} from '../../../music/index.ts';
import { serverMessage, type ClientMessage, type ServerMessage } from '../../../contract/index.ts';
import { RoomClient } from './room-client.ts';
import type { RoomListeners, RoomSocket } from './room-socket.ts';
import type { UnsentStore } from './unsent-store.ts';

const songId = '018f0000-0000-7000-8000-000000000001';
const melody: Line = {
  id: lineId('melody'),
  name: 'Melody',
  role: 'melody',
  dye: 'madder',
  letter: 'M',
  orderKey: 'a0',
  isRetired: false,
};
const bass: Line = {
  id: lineId('bass'),
  name: 'Bass',
  role: 'bass',
  dye: 'indigo',
  letter: 'B',
  orderKey: 'a1',
  isRetired: false,
};

type Named = OrderedOperation & { readonly byName: string };

/** A table's server in a few lines: music's own judge orders what arrives; the test decides when a wire is up. */
class Server {
  split: Split = { ...emptySplit, lines: [melody, bass] };
  readonly log: Named[] = [];
  readonly wires = new Set<Wire>();

  take(wire: Wire, submission: Submission): void {
    const first = this.log.find((known) => known.id === submission.id) ?? null;
    const verdict = judge({ split: this.split, submission, first, hasNote: (note) => note !== 'nowhere' });
    if (verdict.kind === 'refused') {
      wire.tell({
        type: 'refused',
        songId,
        operationId: submission.id,
        code: 'operation-unknown-note',
        detail: verdict.refusal.detail,
      });
    } else if (verdict.kind === 'duplicate') {
      wire.tell({ type: 'ordered', songId, operation: verdict.first });
    } else this.#append({ ...submission, revision: verdict.revision, by: wire.person, byName: wire.person });
  }

  #append(operation: Named): void {
    const next = applyOperation(this.split, operation.operation, operation.revision);
    if (!next.ok) throw new Error(next.refusal.detail);
    this.split = next.value;
    this.log.push(operation);
    for (const wire of this.wires) wire.tell({ type: 'ordered', songId, operation });
  }
}

class Wire implements RoomSocket {
  readonly sent: ClientMessage[] = [];
  readonly server: Server;
  readonly person: string;
  isUp = true;
  #listeners: RoomListeners | null = null;

  constructor(server: Server, person: string) {
    this.server = server;
    this.person = person;
  }

  listen(listeners: RoomListeners): void {
    this.#listeners = listeners;
    if (this.isUp) this.up();
  }

  up(): void {
    this.isUp = true;
    this.#listeners?.onOpen(this.person);
  }

  down(): void {
    this.isUp = false;
    this.server.wires.delete(this);
    this.#listeners?.onClose();
  }

  tell(message: ServerMessage): void {
    if (this.isUp) this.#listeners?.onMessage(message);
  }

  send(message: ClientMessage): void {
    this.sent.push(message);
    if (message.type === 'submit') this.server.take(this, message.submission);
    if (message.type !== 'join') return;
    this.server.wires.add(this);
    const since = this.server.log.filter((known) => known.revision > (message.knownRevision ?? -1));
    if (message.knownRevision !== null) this.tell({ type: 'catchUp', songId, operations: since, peers: [] });
    else
      this.tell(serverMessage.parse({ type: 'snapshot', songId, snapshot: snapshotOf(this.server.split), peers: [] }));
  }

  close(): void {
    this.down();
  }
}

class MemoryStore implements UnsentStore {
  work: UnsentWork = { pending: [], tray: [] };
  load = () => Promise.resolve(this.work);
  save = (work: UnsentWork) => {
    this.work = work;
    return Promise.resolve();
  };
}

let server: Server;
let count = 0;
const delayed: (() => void)[] = [];
const timers = { after: (_delayMs: number, deed: () => void) => (delayed.push(deed), () => undefined) };

beforeEach(() => {
  server = new Server();
  delayed.length = 0;
});

async function seat(person: string, isUp = true, store = new MemoryStore()) {
  const wire = new Wire(server, person);
  wire.isUp = isUp;
  const newId = () => operationId(`${person}-${(count += 1)}`);
  const client = new RoomClient({ songId, person: { id: person }, socket: wire, store, newId, timers });
  await client.start();
  return { wire, client, store };
}

/** Lets every promise that is ready run. */
const settled = async (): Promise<void> => {
  for (let turn = 0; turn < 8; turn += 1) await Promise.resolve();
};

const put = (client: RoomClient, note: string, line: Line) => {
  const operation = markNotes(client.getSnapshot().split, [noteId(note)], [line.id]);
  if (operation === null) throw new Error('nothing to mark');
  return client.submit(operation);
};
const lineOf = (client: RoomClient, note: string) => client.getSnapshot().split.marks.get(noteId(note))?.lines[0];

test('a mark is seen at once, acknowledged, and reaches the colleague with its author’s name', async () => {
  const { client: marit } = await seat('marit');
  const { client: teo } = await seat('teo');
  put(marit, 'n1', melody);
  expect(marit.getSnapshot().saveState).toEqual({ kind: 'saved' });
  expect(lineOf(teo, 'n1')).toBe('melody');
  expect(teo.getSnapshot().arrivals).toMatchObject([{ name: 'marit', notes: ['n1'] }]);
  expect(marit.getSnapshot().arrivals).toEqual([]);
  for (const deed of delayed.splice(0)) deed();
  expect(teo.getSnapshot().arrivals).toEqual([]);
});

test('marks made offline are counted, kept, and sent once the wire is back', async () => {
  const { client: marit, wire, store } = await seat('marit');
  const { client: teo } = await seat('teo');
  wire.down();
  put(marit, 'n1', melody);
  put(marit, 'n2', bass);
  put(teo, 'n3', bass);
  expect(marit.getSnapshot().saveState).toEqual({ kind: 'waiting', count: 2 });
  await settled();
  expect(store.work.pending).toHaveLength(2);
  wire.up();
  expect(marit.getSnapshot().saveState).toEqual({ kind: 'saved' });
  expect(['n1', 'n2', 'n3'].map((note) => lineOf(teo, note))).toEqual(['melody', 'bass', 'bass']);
  expect(lineOf(marit, 'n3')).toBe('bass');
});

test('a reload takes up unsent work under its own ids; what had been written is not written twice', async () => {
  const first = await seat('marit');
  put(first.client, 'n1', melody);
  const written = server.log[0] as Named;
  const store = new MemoryStore();
  store.work = {
    pending: [{ id: written.id, baseRevision: written.baseRevision, operation: written.operation }],
    tray: [],
  };
  const second = await seat('marit', true, store);
  expect(server.log).toHaveLength(1);
  expect(second.client.getSnapshot().saveState).toEqual({ kind: 'saved' });
  expect(lineOf(second.client, 'n1')).toBe('melody');
});

test('what is refused lies in the tray until it is let go', async () => {
  const { client } = await seat('marit');
  put(client, 'nowhere', melody);
  const [refused] = client.getSnapshot().tray;
  expect(refused?.code).toBe('operation-unknown-note');
  expect(lineOf(client, 'nowhere')).toBeUndefined();
  client.dismissRefused(operationId(refused?.submission.id ?? ''));
  expect(client.getSnapshot().tray).toEqual([]);
});

test('undo and redo travel like any other mark', async () => {
  const { client: marit } = await seat('marit');
  const { client: teo } = await seat('teo');
  put(marit, 'n1', melody);
  marit.undo();
  expect(lineOf(teo, 'n1')).toBeUndefined();
  expect(marit.getSnapshot()).toMatchObject({ canUndo: false, canRedo: true });
  marit.redo();
  expect(lineOf(teo, 'n1')).toBe('melody');
});

test('a missed revision makes the client join again with what it has', async () => {
  const { client: marit } = await seat('marit');
  const { client: teo, wire } = await seat('teo');
  server.wires.delete(wire);
  put(marit, 'n1', melody);
  server.wires.add(wire);
  put(marit, 'n2', bass);
  expect(['n1', 'n2'].map((note) => lineOf(teo, note))).toEqual(['melody', 'bass']);
  expect(wire.sent.filter((message) => message.type === 'join')).toHaveLength(2);
});

test('presence is sent at once, then at most once in a gap, the last one always', async () => {
  const { client, wire } = await seat('marit');
  for (const bar of ['b1', 'b2', 'b3']) client.setPresence({ bar, selection: [] });
  for (const deed of delayed.splice(0)) deed();
  const bars = wire.sent.flatMap((message) => (message.type === 'presence' ? [message.presence.bar] : []));
  expect(bars).toEqual(['b1', 'b3']);
});
