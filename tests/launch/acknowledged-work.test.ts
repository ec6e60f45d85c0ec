import { once } from 'node:events';
import { chmodSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';
import { io } from 'socket.io-client';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startCluster } from '../../launch/postgres/cluster.ts';
import { applyOperation, emptySplit, type Operation, type Split } from '../../music/index.ts';
import { startBuilt, type ApiProcess } from '../support/api-process.ts';
import { startApp } from '../support/app.ts';
import { Caller } from '../support/caller.ts';
import { makeCourse, type TestCourse } from '../support/course.ts';
import { BreakableDatabase } from '../support/database/breakable-database.ts';
import { MarkingClient } from '../support/marking-client.ts';

let folder: string;
let database: BreakableDatabase;
let course: TestCourse;
let lines: readonly string[];
let processes: ApiProcess[] = [];
let log = '';

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'heddle-acknowledged-'));
  chmodSync(folder, 0o755); // as root, the database's own user must pass through
  database = await BreakableDatabase.start(() => startCluster({ folder: join(folder, 'postgres'), isDurable: true }));
  const api = await startApp({ databaseUrl: database.url });
  course = await makeCourse(api);
  const split = await api.desk.splits.snapshot(course.owner.person, course.songId);
  lines = split.lines.map(({ id }) => id);
  await api.app.close();
});
afterAll(async () => {
  for (const { child } of processes) {
    if (child.exitCode === null && child.signalCode === null) child.kill('SIGKILL');
  }
  await database.stop();
  rmSync(folder, { recursive: true, force: true });
});

async function startApi(): Promise<ApiProcess> {
  const api = await startBuilt({ DATABASE_URL: database.url, HEDDLE_LOG_LEVEL: 'error' });
  processes = [...processes, api];
  api.child.stdout?.on('data', (chunk: Buffer) => (log += chunk.toString()));
  return api;
}

const clients = (name: string): MarkingClient[] =>
  [course.owner, course.coTeacher].map(
    ({ person, as }) =>
      new MarkingClient({ name, personId: person.id, cookie: as.cookie, songId: course.songId, lines }),
  );

const until = async (isSo: () => boolean): Promise<void> => {
  while (!isSo()) await new Promise((resolve) => setTimeout(resolve, 2));
};

/** A socket that tries again by itself until it is let in, as a browser's does. */
function reconnecting(origin: string, cookie: string): Promise<void> {
  const socket = io(origin, {
    path: '/socket',
    transports: ['websocket'],
    extraHeaders: { cookie },
    reconnectionDelayMax: 1000,
    forceNew: true,
  });
  return new Promise((resolve) => {
    socket.once('connect', () => {
      socket.close();
      resolve();
    });
  });
}

interface Written {
  readonly revision: number;
  readonly id: string;
  readonly person: string;
  readonly operation: Operation;
}

async function written(): Promise<{ operations: Written[]; revision: number; marks: unknown }> {
  const client = new pg.Client({ connectionString: database.url });
  await client.connect();
  try {
    const operations = await client.query<Written>(
      'SELECT revision, operation_id AS id, person_id AS person, operation FROM split_operation WHERE song_id = $1 ORDER BY revision',
      [course.songId],
    );
    const split = await client.query<{ revision: number }>('SELECT revision FROM split WHERE song_id = $1', [
      course.songId,
    ]);
    const marks = await client.query<{ note: string; lines: string[]; revision: number }>(
      'SELECT note_id AS note, lines, revision FROM mark WHERE song_id = $1 ORDER BY note_id',
      [course.songId],
    );
    return { operations: operations.rows, revision: split.rows[0]!.revision, marks: marks.rows };
  } finally {
    await client.end();
  }
}

/** What the stored operations make, played again one after the other. */
function replayed(operations: readonly Written[]): unknown {
  let split: Split = emptySplit;
  for (const { operation, revision } of operations) {
    const next = applyOperation(split, operation, revision);
    if (!next.ok) throw new Error(`Operation ${revision} does not apply`);
    split = next.value;
  }
  return [...split.marks]
    .map(([note, mark]) => ({ note, lines: [...mark.lines], revision: mark.revision }))
    .sort((left, right) => (left.note < right.note ? -1 : 1));
}

/** Every acknowledged operation is there under its revision, all there are come without a gap, and the marks are what they make. */
async function expectNothingLost(marking: readonly MarkingClient[]): Promise<void> {
  const { operations, revision, marks } = await written();
  expect(operations.map((operation) => operation.revision)).toEqual(operations.map((_, index) => index + 1));
  expect(revision).toBe(operations.length);
  expect(new Set(operations.map(({ person, id }) => `${person} ${id}`)).size).toBe(operations.length);
  for (const { personId, acknowledged } of marking) {
    const kept = new Map(
      operations.filter(({ person }) => person === personId).map(({ id, revision: at }) => [id, at]),
    );
    for (const [id, at] of acknowledged) expect([id, kept.get(id)]).toEqual([id, at]);
  }
  expect(marks).toEqual(replayed(operations));
}

/** Sends again what has no answer yet; in the end each operation was written once. */
async function finish(marking: readonly MarkingClient[], origin: string): Promise<void> {
  await Promise.all(marking.map((client) => client.connect(origin)));
  for (const client of marking) client.submitPending();
  await until(() => marking.every(({ pending }) => pending.length === 0));
  await expectNothingLost(marking);
  const { operations } = await written();
  for (const { personId, sent } of marking) {
    const own = operations.filter(({ person, id }) => person === personId && sent.includes(id)).map(({ id }) => id);
    expect(own.sort()).toEqual([...sent].sort());
  }
  for (const client of marking) client.close();
}

describe('work that was acknowledged', () => {
  it('is there exactly once after the API was killed in the middle of a burst', async () => {
    const marking = clients('api-killed');
    for (const killAfter of [12, 30]) {
      const api = await startApi();
      await Promise.all(marking.map((client) => client.connect(api.origin)));
      for (const client of marking) client.burst(30);
      await until(() => marking.reduce((sum, { acknowledged }) => sum + acknowledged.size, 0) >= killAfter);
      api.child.kill('SIGKILL');
      await once(api.child, 'exit');
      await Promise.all(marking.map((client) => client.closed()));
      expect(marking.some(({ pending }) => pending.length > 0)).toBe(true);
      await expectNothingLost(marking);
    }
    const api = await startApi();
    await finish(marking, api.origin);
    await api.stop();
  });

  it('is there exactly once after the database was killed, and the API recovers by itself', async () => {
    const api = await startApi();
    const marking = clients('database-killed');
    await Promise.all(marking.map((client) => client.connect(api.origin)));
    for (const client of marking) client.burst(30);
    await until(() => marking.reduce((sum, { acknowledged }) => sum + acknowledged.size, 0) >= 15);
    await database.kill();
    for (const client of marking) client.burst(5);
    await Promise.all(marking.map((client) => client.closed()));
    for (const client of marking) expect(client.refusals, log.slice(-5000)).toEqual([]);

    const caller = new Caller(api.origin);
    const cookie = { cookie: course.owner.as.cookie };
    (await caller.get(`/api/songs/${course.songId}`, cookie)).refused(503, 'unavailable');
    (await caller.get('/healthz')).refused(503, 'unavailable');
    await expect(marking[0]!.connect(api.origin)).rejects.toThrow('Closed before it was open');
    const waiting = reconnecting(api.origin, course.owner.as.cookie);

    await database.start();
    (await caller.get(`/api/songs/${course.songId}`, cookie)).expect(200);
    (await caller.get('/healthz')).expect(200);
    await expectNothingLost(marking);
    await waiting;
    await finish(marking, api.origin);
    await api.stop();
  });

  it('is there exactly once after every connection to the database was cut', async () => {
    const api = await startApi();
    const marking = clients('connections-cut');
    await Promise.all(marking.map((client) => client.connect(api.origin)));
    for (const client of marking) client.burst(30);
    await until(() => marking.reduce((sum, { acknowledged }) => sum + acknowledged.size, 0) >= 15);
    database.cut();
    for (const client of marking) client.burst(5);
    await Promise.all(marking.map((client) => client.closed()));
    await finish(marking, api.origin);
    await api.stop();
  });
});
