import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { operationsSince, orderedOperation, proposal } from '../../contract/index.ts';
import { TableSessions } from '../../api/splits/table-sessions.ts';
import type { TestApp } from '../support/app.ts';
import { startApp } from '../support/app.ts';
import { makeCourse, splitOf, type TestCourse } from '../support/course.ts';
import { TableClient } from '../support/table-client.ts';

let api: TestApp;
let course: TestCourse;
beforeAll(async () => {
  api = await startApp();
  course = await makeCourse(api);
});
afterAll(() => api.stop());

const unmarked = { lines: [], from: 'proposal', confidence: null };
const line = (id: string) => ({
  id,
  name: id,
  role: 'melody',
  dye: 'madder',
  letter: 'X',
  orderKey: 'z1',
  isRetired: false,
});
const marking = (id: string, baseRevision: number, note: string, lines: readonly string[]) => ({
  id,
  baseRevision,
  operation: {
    kind: 'markNotes',
    changes: [{ note, before: unmarked, after: { lines, from: 'person', confidence: null } }],
  },
});
const making = (id: string, name: string) => ({
  id,
  baseRevision: 0,
  operation: { kind: 'makeLine', line: line(name) },
});

describe('a split over REST', () => {
  it('is made from the first score at once, as the uploader’s own first operation', async () => {
    const split = await splitOf(course);
    const { operations, isAll } = (await course.owner.as.get(`/api/songs/${course.songId}/split/operations`))
      .expect(200)
      .as(operationsSince);
    expect(operations.slice(0, 1)).toMatchObject([
      { revision: 1, by: course.owner.person.id, operation: { kind: 'acceptProposal' } },
    ]);
    expect(isAll).toBe(true);
    expect(split.marks).toHaveLength(8);
    expect(split.marks.every(([, mark]) => mark.from === 'proposal' && mark.lines.length > 0)).toBe(true);
  });

  it('takes an operation once, answers the same again, and refuses another one under its name', async () => {
    const own = await makeCourse(api);
    const at = `/api/songs/${own.songId}/split/operations`;
    const first = (await own.owner.as.post(at, making('make-1', 'extra'))).expect(201).as(orderedOperation);
    expect(first).toMatchObject({ revision: 2, by: own.owner.person.id, byName: own.owner.person.name });
    const again = (await own.owner.as.post(at, making('make-1', 'extra'))).expect(201).as(orderedOperation);
    expect(again).toEqual(first);
    (await own.owner.as.post(at, making('make-1', 'other'))).refused(409, 'operation-differs');
    expect(
      (await own.coTeacher.as.post(at, making('make-1', 'theirs'))).expect(201).as(orderedOperation).revision,
    ).toBe(3);
    expect((await splitOf(own)).revision).toBe(3);
  });

  it('refuses what it cannot place, and writes nothing of it', async () => {
    const at = `/api/songs/${course.songId}/split/operations`;
    const before = await splitOf(course);
    const known = before.lines[0]!.id;
    (await course.owner.as.post(at, marking('a', 1, 'n999', [known]))).refused(422, 'operation-unknown-note');
    (await course.owner.as.post(at, marking('b', 1, 'n1', ['nowhere']))).refused(422, 'operation-unknown-line');
    (
      await course.owner.as.post(at, { id: 'c', baseRevision: 0, operation: { kind: 'markNotes', changes: [] } })
    ).refused(400, 'body-invalid');
    (await course.owner.as.post(at, { id: 'd', baseRevision: -1, operation: { kind: 'makeLine' } })).refused(
      400,
      'body-invalid',
    );
    expect(await splitOf(course)).toEqual(before);
  });

  it('puts the operations of many people at once into one order without gaps', async () => {
    const own = await makeCourse(api);
    const at = `/api/songs/${own.songId}/split/operations`;
    const known = (await splitOf(own)).lines[0]!.id;
    const made = await Promise.all(
      Array.from({ length: 30 }, (_, index) =>
        (index % 2 === 0 ? own.owner : own.coTeacher).as.post(
          at,
          marking(`m${index}`, 1, `n${(index % 8) + 1}`, index % 3 === 0 ? [] : [known]),
        ),
      ),
    );
    const revisions = made.map((answer) => answer.expect(201).as(orderedOperation).revision).sort((a, b) => a - b);
    expect(revisions).toEqual(Array.from({ length: 30 }, (_, index) => index + 2));
    const split = await splitOf(own);
    const { operations } = (await own.owner.as.get(`${at}?after=1`)).as(operationsSince);
    const lastWord = new Map(
      operations.flatMap((op) =>
        'changes' in op.operation
          ? op.operation.changes.map((change) => [change.note as string, change.after.lines] as const)
          : [],
      ),
    );
    for (const [note, mark] of split.marks) if (lastWord.has(note)) expect(mark.lines).toEqual(lastWord.get(note));
  });

  it('proposes without changing anything, and leaves people’s marks alone', async () => {
    const own = await makeCourse(api);
    const at = `/api/songs/${own.songId}/split`;
    await own.owner.as.post(`${at}/operations`, marking('pin', 1, 'n1', []));
    const before = await splitOf(own);
    const told = (await own.coTeacher.as.post(`${at}/proposal`, { lineCount: 3 })).expect(200).as(proposal);
    expect(told.baseRevision).toBe(2);
    expect(told.operation.kind).toBe('acceptProposal');
    expect('changes' in told.operation && told.operation.changes.map(({ note }) => note)).not.toContain('n1');
    expect(await splitOf(own)).toEqual(before);
    (await own.owner.as.post(`${at}/operations`, { id: 'accept', baseRevision: 2, operation: told.operation })).expect(
      told.changedCount > 0 ? 201 : 400,
    );
  });
});

describe('the table', () => {
  it('shows each mark to everybody in the order in which it was taken', async () => {
    const own = await makeCourse(api);
    const [left, right] = await Promise.all([TableClient.open(own.owner.as), TableClient.open(own.coTeacher.as)]);
    left.join(own.songId);
    right.join(own.songId);
    const { snapshot } = await left.next('snapshot');
    await right.next('snapshot');
    expect(snapshot).toEqual(await splitOf(own));
    left.send({ type: 'submit', songId: own.songId, submission: making('line', 'hum') });
    left.send({ type: 'submit', songId: own.songId, submission: marking('mark', 1, 'n1', ['hum']) });
    for (const table of [left, right]) {
      expect(await table.next('ordered')).toMatchObject({
        operation: { id: 'line', revision: 2, byName: own.owner.person.name },
      });
      expect(await table.next('ordered')).toMatchObject({ operation: { id: 'mark', revision: 3 } });
    }
    right.send({ type: 'submit', songId: own.songId, submission: marking('mark', 3, 'n2', ['hum']) });
    expect(await left.next('ordered')).toMatchObject({
      operation: { id: 'mark', revision: 4, by: own.coTeacher.person.id },
    });
    left.close();
    right.close();
  });

  it('answers a repeated submission to its author alone and refuses with the code of the rule', async () => {
    const own = await makeCourse(api);
    const table = await TableClient.open(own.owner.as);
    const other = await TableClient.open(own.coTeacher.as);
    for (const client of [table, other]) {
      client.join(own.songId);
      await client.next('snapshot');
    }
    const submission = making('once', 'hum');
    table.send({ type: 'submit', songId: own.songId, submission });
    const first = await table.next('ordered');
    await other.next('ordered');
    table.send({ type: 'submit', songId: own.songId, submission });
    expect(await table.next('ordered')).toEqual(first);
    table.send({ type: 'submit', songId: own.songId, submission: making('once', 'haw') });
    expect(await table.next('refused')).toMatchObject({ operationId: 'once', code: 'operation-differs' });
    table.send({ type: 'submit', songId: own.songId, submission: marking('lost', 1, 'n777', []) });
    expect(await table.next('refused')).toMatchObject({ operationId: 'lost', code: 'operation-unknown-note' });
    table.send({ type: 'nonsense', songId: own.songId });
    expect(await table.next('refused')).toMatchObject({ songId: own.songId, operationId: null, code: 'body-invalid' });
    expect(other.received.filter(({ type }) => type !== 'peers')).toEqual([]);
    table.close();
    other.close();
  });

  it('sends who comes back only what was missed', async () => {
    const own = await makeCourse(api);
    const table = await TableClient.open(own.owner.as);
    table.join(own.songId, 1);
    expect(await table.next('catchUp')).toMatchObject({ operations: [] });
    table.send({ type: 'submit', songId: own.songId, submission: making('line', 'hum') });
    await table.next('ordered');
    table.close();
    await own.coTeacher.as.post(`/api/songs/${own.songId}/split/operations`, marking('away', 2, 'n1', ['hum']));
    const back = await TableClient.open(own.owner.as);
    back.join(own.songId, 2);
    const { operations } = await back.next('catchUp');
    expect(operations.map(({ id, revision }) => [id, revision])).toEqual([['away', 3]]);
    back.join(own.songId, 99);
    expect((await back.next('snapshot')).snapshot.revision).toBe(3);
    back.close();
  });

  it('tells who sits there and where they look', async () => {
    const own = await makeCourse(api);
    const left = await TableClient.open(own.owner.as);
    const right = await TableClient.open(own.coTeacher.as);
    left.join(own.songId);
    right.join(own.songId);
    const both = await left.next('peers', ({ peers }) => peers.length === 2);
    expect(both.peers.map(({ name }) => name).sort()).toEqual(
      [own.coTeacher.person.name, own.owner.person.name].sort(),
    );
    right.send({ type: 'presence', songId: own.songId, presence: { bar: 'b2', selection: ['n5'] } });
    const moved = await left.next('peers', ({ peers }) => peers.some(({ presence }) => presence.bar === 'b2'));
    expect(moved.peers.find(({ personId }) => personId === own.coTeacher.person.id)?.presence.selection).toEqual([
      'n5',
    ]);
    right.close();
    expect((await left.next('peers', ({ peers }) => peers.length === 1)).peers[0]?.personId).toBe(own.owner.person.id);
    left.close();
  });

  it('keeps strangers, students and other sites out', async () => {
    await expect(TableClient.open(api.stranger())).rejects.toThrow('not-signed-in');
    await expect(TableClient.open(course.owner.as, { origin: 'https://elsewhere.example' })).rejects.toThrow();
    const own = await TableClient.open(course.owner.as, { origin: api.origin });
    own.close();
    const student = await TableClient.open(course.student.as);
    student.join(course.songId);
    expect(await student.next('refused')).toMatchObject({ code: 'not-permitted' });
    student.send({ type: 'submit', songId: course.songId, submission: making('x', 'y') });
    expect(await student.next('refused')).toMatchObject({ code: 'not-permitted', operationId: 'x' });
    student.close();
    const other = await makeCourse(api);
    const outsider = await TableClient.open(other.owner.as);
    outsider.join(course.songId);
    expect(await outsider.next('refused')).toMatchObject({ code: 'not-found' });
    outsider.close();
  });

  it('closes for somebody whose membership ends, at once', async () => {
    const own = await makeCourse(api);
    const table = await TableClient.open(own.coTeacher.as);
    table.join(own.songId);
    await table.next('snapshot');
    (await own.owner.as.delete(`/api/courses/${own.courseId}/people/${own.coTeacher.person.id}`)).expect(204);
    expect(await table.closed()).toBe('io server disconnect');
    const again = await TableClient.open(own.coTeacher.as);
    again.join(own.songId);
    expect(await again.next('refused')).toMatchObject({ code: 'not-found' });
    again.close();
  });

  it('closes with the session behind it', async () => {
    const own = await makeCourse(api);
    const [leaving, staying] = await Promise.all([TableClient.open(own.coTeacher.as), TableClient.open(own.owner.as)]);
    (await own.coTeacher.as.post('/api/auth/sign-out')).expect(200);
    await api.app.get(TableSessions).lookAgain();
    expect(await leaving.closed()).toBe('io server disconnect');
    staying.join(own.songId);
    await staying.next('snapshot');
    staying.close();
  });

  it('refuses a protocol that it does not speak', async () => {
    const table = await TableClient.open(course.owner.as);
    table.send({ type: 'join', protocol: 99, songId: course.songId, knownRevision: null });
    expect((await table.next('refused')).detail).toContain('protocol 1');
    table.close();
  });
});
