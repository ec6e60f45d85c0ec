import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApp, type TestApp } from '../support/app.ts';
import { Caller } from '../support/caller.ts';
import { makeCourse, splitOf, type TestCourse } from '../support/course.ts';
import { TableClient } from '../support/table-client.ts';

/** With a Redis, two processes serve one table; without one, both ends of the table are served by the same process. */
const redisUrl = process.env['HEDDLE_TEST_REDIS_URL'];
const MARKS = 20;

let near: TestApp;
let far: TestApp;
let course: TestCourse;
beforeAll(async () => {
  const environment: Record<string, string> = redisUrl === undefined ? {} : { REDIS_URL: redisUrl };
  near = await startApp({ environment });
  far = redisUrl === undefined ? near : await startApp({ environment, databaseUrl: near.databaseUrl });
  course = await makeCourse(near);
});
afterAll(async () => {
  if (far !== near) await far.stop();
  await near.stop();
});

const openAt = (api: TestApp, cookie: string): Promise<TableClient> =>
  TableClient.open(new Caller(api.origin), { cookie });

const marking = (number: number, line: string) => ({
  id: `far-${number}`,
  baseRevision: 1,
  operation: {
    kind: 'markNotes',
    changes: [
      {
        note: `n${(number % 8) + 1}`,
        before: { lines: [], from: 'proposal', confidence: null },
        after: { lines: [line], from: 'person', confidence: null },
      },
    ],
  },
});

const where = redisUrl === undefined ? 'of one process' : 'of another process';

it(`what is marked at one end reaches a table ${where} in order`, async () => {
  const [line] = (await splitOf(course)).lines;
  const table = await openAt(far, course.coTeacher.as.cookie);
  table.join(course.songId);
  const { snapshot, peers } = await table.next('snapshot');
  expect(peers.length).toBeGreaterThan(0);
  const author = await openAt(near, course.owner.as.cookie);
  author.join(course.songId);
  await author.next('snapshot');
  for (let number = 0; number < MARKS; number += 1) {
    author.send({ type: 'submit', songId: course.songId, submission: marking(number, line!.id) });
  }
  const seen = [];
  for (let number = 0; number < MARKS; number += 1) seen.push((await table.next('ordered')).operation);
  expect(seen.map(({ revision }) => revision)).toEqual(
    Array.from({ length: MARKS }, (_, index) => snapshot.revision + 1 + index),
  );
  expect(seen.map(({ id }) => id)).toEqual(Array.from({ length: MARKS }, (_, number) => `far-${number}`));
  const { peers: together } = await table.next('peers', (message) => message.peers.length === 2);
  expect(together.map(({ personId }) => personId).sort()).toEqual(
    [course.owner.person.id, course.coTeacher.person.id].sort(),
  );
  author.close();
  table.close();
});

it(`who is removed at one end loses the table ${where}`, async () => {
  const table = await openAt(far, course.coTeacher.as.cookie);
  table.join(course.songId);
  await table.next('snapshot');
  const at = `/api/courses/${course.courseId}/people/${course.coTeacher.person.id}`;
  (await course.owner.as.delete(at)).expect(204);
  await table.closed();
  const again = await openAt(far, course.coTeacher.as.cookie);
  again.join(course.songId);
  expect((await again.next('refused')).code).toBe('not-found');
  again.close();
});
