import { afterAll, beforeAll, expect, it } from 'vitest';
import { attempt, attemptsOfRelease, courseDetail, shelf } from '../../contract/index.ts';
import { startApp, type TestApp } from '../support/app.ts';
import { makeCourse } from '../support/course.ts';
import { makeLesson, releaseLesson } from '../support/lesson.ts';
import { SettableClock } from '../support/settable-clock.ts';

const clock = new SettableClock();
let api: TestApp;
beforeAll(async () => {
  api = await startApp({ clock });
});
afterAll(() => api.stop());

const under = (key: string) => ({ 'idempotency-key': key });

it('makes a thing once, however often its request comes', async () => {
  const { as } = await api.person('Repeater');
  const first = (await as.post('/api/courses', { title: 'Once' }, under('one'))).expect(201).as(courseDetail);
  const again = (await as.post('/api/courses', { title: 'Once' }, under('one'))).expect(201).as(courseDetail);
  expect(again).toEqual(first);
  (await as.post('/api/courses', { title: 'Twice' }, under('one'))).refused(409, 'operation-differs');
  (await as.post('/api/courses', { title: 'Once' }, under(''))).refused(400, 'body-invalid');
  expect((await as.get('/api/shelf')).as(shelf).courses).toHaveLength(1);
  await as.post('/api/courses', { title: 'Once' });
  expect((await as.get('/api/shelf')).as(shelf).courses).toHaveLength(2);
});

it('makes it once also when the requests come together', async () => {
  const { as } = await api.person('Hasty');
  const answers = await Promise.all([1, 2, 3, 4].map(() => as.post('/api/courses', { title: 'Rush' }, under('rush'))));
  for (const answer of answers) expect([201, 409]).toContain(answer.status);
  expect((await as.get('/api/shelf')).as(shelf).courses).toHaveLength(1);
});

it('keeps keys of different people apart, frees the key of what was refused, and forgets after a day', async () => {
  const one = await api.person('Key One');
  const two = await api.person('Key Two');
  const made = [one, two].map(
    async ({ as }) => (await as.post('/api/courses', { title: 'Same' }, under('same'))).expect(201).as(courseDetail).id,
  );
  expect(new Set(await Promise.all(made)).size).toBe(2);
  const course = await makeCourse(api);
  const { id } = await releaseLesson(course, (await makeLesson(course)).id);
  const at = `/api/releases/${id}/attempts`;
  const tried = { stepId: 'bars', pathStepId: 'sing', outcome: 'sang' };
  (await course.student.as.post(at, { ...tried, pathStepId: 'gone' }, under('try'))).refused(400, 'body-invalid');
  const first = (await course.student.as.post(at, tried, under('try'))).expect(201).as(attempt);
  expect((await course.student.as.post(at, tried, under('try'))).as(attempt)).toEqual(first);
  clock.goOn(25 * 60);
  await course.student.as.post(at, tried, under('try'));
  expect((await course.student.as.get(at)).as(attemptsOfRelease).attempts).toHaveLength(2);
});
