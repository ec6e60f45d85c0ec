import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { clientMessage, problem } from '../../contract/index.ts';
import { apiDocumentOf } from '../../api/http/api-document.ts';
import { startApp, type TestApp } from '../support/app.ts';
import type { Caller } from '../support/caller.ts';
import { makeCourse, songOf, splitOf, type TestCourse } from '../support/course.ts';
import { TableClient } from '../support/table-client.ts';
import { callers, matrix, messages } from './role-matrix.ts';

let api: TestApp;
let course: TestCourse;
let elsewhere: TestCourse;
beforeAll(async () => {
  api = await startApp();
  course = await makeCourse(api);
  elsewhere = await makeCourse(api);
});
afterAll(() => api.stop());

const callerNamed = (name: (typeof callers)[number]): Caller => {
  if (name === 'stranger') return api.stranger();
  return name === 'other' ? elsewhere.owner.as : course[name].as;
};
const methods = ['get', 'post', 'put', 'patch', 'delete'] as const;

describe('the matrix of routes and roles', () => {
  it('has every route that the API tells of', () => {
    const { paths } = apiDocumentOf(api.app);
    const told = Object.entries(paths).flatMap(([path, item]) =>
      methods.filter((method) => item[method] !== undefined).map((method) => `${method.toUpperCase()} ${path}`),
    );
    expect(matrix.map(({ route }) => route).sort()).toEqual(told.sort());
  });

  it.each(matrix.map((row) => [row.route, row] as const))('%s', async (route, { call, answers }) => {
    const method = route.split(' ')[0] as 'GET' | 'POST' | 'PUT' | 'PATCH' | 'DELETE';
    for (const name of callers) {
      const { path, body, headers } = await call(course);
      const answer = await callerNamed(name).send(method, path, body, headers ?? {});
      expect(`${name} ${answer.status}`, answer.text.slice(0, 300)).toBe(`${name} ${answers[name]}`);
      if (answer.status >= 400) expect(problem.parse(answer.json).status).toBe(answer.status);
    }
  });

  it('tells an outsider the same whether a thing is there or not', async () => {
    const nowhere = '01a00000-0000-7000-8000-000000000000';
    for (const [there, absent] of [
      [`/api/courses/${course.courseId}`, `/api/courses/${nowhere}`],
      [`/api/songs/${course.songId}`, `/api/songs/${nowhere}`],
    ] as const) {
      const seen = (await elsewhere.owner.as.get(there)).refused(404, 'not-found');
      const unseen = (await elsewhere.owner.as.get(absent)).refused(404, 'not-found');
      expect({ ...seen, requestId: '' }).toEqual({ ...unseen, requestId: '' });
    }
    (await elsewhere.owner.as.get('/api/courses/not-an-id')).refused(404, 'not-found');
  });

  it('lets nobody who is refused change anything', async () => {
    const before = [await songOf(elsewhere), await splitOf(elsewhere)];
    for (const { route, call } of matrix.filter(({ answers }) => answers.other === 404 && answers.owner < 300)) {
      const method = route.split(' ')[0] as 'GET';
      const { path, body, headers } = await call(elsewhere);
      const answer = await course.owner.as.send(method, path, body, headers ?? {});
      expect(`${route} ${answer.status}`).toBe(`${route} 404`);
    }
    expect([await songOf(elsewhere), await splitOf(elsewhere)]).toEqual(before);
  });
});

describe('the matrix of messages and roles', () => {
  it('has every message of the protocol', () => {
    expect(messages.map(({ type }) => type).sort()).toEqual(
      clientMessage.options.map(({ shape }) => shape.type.value).sort(),
    );
  });

  it.each(messages.map((row) => [row.type, row] as const))('%s', async (type, row) => {
    for (const name of ['other', 'student', 'coTeacher', 'owner'] as const) {
      const table = await TableClient.open(callerNamed(name));
      if (row[name] === null && type !== 'leave') {
        table.join(course.songId);
        await table.next('snapshot');
      }
      table.send(row.message(course));
      table.send({ type: 'mark the end' });
      const first = await table.next('refused');
      expect([name, first.code]).toEqual([name, row[name] ?? 'body-invalid']);
      table.close();
    }
  });
});
