import { afterAll, beforeAll, expect, it } from 'vitest';
import { attempt, attemptsOfRelease, progressOfCourse } from '../../contract/index.ts';
import { startApp, type TestApp } from '../support/app.ts';
import { makeCourse, type TestCourse } from '../support/course.ts';
import { makeLesson, releaseLesson } from '../support/lesson.ts';

let api: TestApp;
let course: TestCourse;
beforeAll(async () => {
  api = await startApp();
  course = await makeCourse(api);
});
afterAll(() => api.stop());

const tried = (pathStepId: string, outcome: string) => ({ stepId: 'bars', pathStepId, outcome });

it('keeps each try of a student, told to nobody else by that route', async () => {
  const { id } = await releaseLesson(course, (await makeLesson(course)).id);
  const made = (await course.student.as.post(`/api/releases/${id}/attempts`, tried('sing', 'nearly')))
    .expect(201)
    .as(attempt);
  await course.student.as.post(`/api/releases/${id}/attempts`, tried('sing', 'sang'));
  const own = (await course.student.as.get(`/api/releases/${id}/attempts`)).expect(200).as(attemptsOfRelease);
  expect(own.attempts.map(({ outcome }) => outcome)).toEqual(['nearly', 'sang']);
  expect(own.attempts[0]).toEqual(made);
  expect((await course.owner.as.get(`/api/releases/${id}/attempts`)).as(attemptsOfRelease).attempts).toEqual([]);
});

it('refuses tries at steps that are not there, and outcomes that are none', async () => {
  const { id } = await releaseLesson(course, (await makeLesson(course)).id);
  (await course.student.as.post(`/api/releases/${id}/attempts`, tried('dance', 'sang'))).refused(400, 'body-invalid');
  (await course.student.as.post(`/api/releases/${id}/attempts`, tried('sing', 'brilliantly'))).refused(
    400,
    'body-invalid',
  );
  (await course.student.as.get('/api/releases/01a00000-0000-7000-8000-000000000000/attempts')).refused(
    404,
    'not-found',
  );
});

it('shows teachers the latest outcome of each step, over all releases, of those who are students now', async () => {
  const own = await makeCourse(api);
  const lesson = await makeLesson(own);
  const first = await releaseLesson(own, lesson.id);
  await own.student.as.post(`/api/releases/${first.id}/attempts`, tried('hear', 'heard'));
  await own.student.as.post(`/api/releases/${first.id}/attempts`, tried('sing', 'notYet'));
  await own.owner.as.patch(`/api/lessons/${lesson.id}`, { title: 'Again' }, { 'if-match': '"1"' });
  const second = await releaseLesson(own, lesson.id);
  await own.student.as.post(`/api/releases/${second.id}/attempts`, tried('sing', 'sang'));
  await own.owner.as.post(`/api/releases/${second.id}/attempts`, tried('sing', 'sang'));
  const at = `/api/courses/${own.courseId}/progress`;
  const progress = (await own.coTeacher.as.get(at)).expect(200).as(progressOfCourse);
  expect(progress.students.map(({ personId }) => personId)).toEqual([own.student.person.id]);
  expect(progress.lessons).toEqual([
    { lessonId: lesson.id, title: 'Again', position: 1, releaseId: second.id, pathStepCount: 2 },
  ]);
  expect(progress.progress).toMatchObject([{ personId: own.student.person.id, lessonId: lesson.id, attemptCount: 3 }]);
  expect(progress.progress[0]?.latest).toEqual([tried('hear', 'heard'), tried('sing', 'sang')]);
  (await own.owner.as.delete(`/api/courses/${own.courseId}/people/${own.student.person.id}`)).expect(204);
  expect((await own.owner.as.get(at)).as(progressOfCourse)).toMatchObject({ students: [], progress: [] });
});
