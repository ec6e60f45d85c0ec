import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApp, type TestApp } from '../support/app.ts';
import { makeCourse, type TestCourse } from '../support/course.ts';

let api: TestApp;
let course: TestCourse;
beforeAll(async () => {
  api = await startApp();
  course = await makeCourse(api);
});
afterAll(() => api.stop());

describe('requests from elsewhere', () => {
  it('may change nothing, and may read with no origin of their own', async () => {
    const at = `/api/courses/${course.courseId}`;
    (await course.owner.as.patch(at, { title: 'x' }, { origin: 'https://elsewhere.example' })).refused(
      403,
      'origin-refused',
    );
    (await course.owner.as.patch(at, { title: 'x' }, { origin: 'null' })).refused(403, 'origin-refused');
    (await course.owner.as.patch(at, { title: 'x' }, { 'sec-fetch-site': 'cross-site' })).refused(
      403,
      'origin-refused',
    );
    (await api.stranger().post('/api/auth/sign-in/email', {}, { origin: 'https://elsewhere.example' })).refused(
      403,
      'origin-refused',
    );
    (
      await course.owner.as.patch(at, { title: 'Ours' }, { origin: api.origin, 'sec-fetch-site': 'same-origin' })
    ).expect(200);
    (await course.owner.as.get(at, { origin: 'https://elsewhere.example' })).expect(200);
  });

  it('get no leave from us to read the answers', async () => {
    const answer = await course.owner.as.get('/api/me', { origin: 'https://elsewhere.example' });
    expect(answer.headers.get('access-control-allow-origin')).toBeNull();
  });
});

describe('headers', () => {
  it.each(['/', '/healthz', '/api/me', '/api/docs', '/nowhere/at/all'])(
    'keep browsers to what we serve: %s',
    async (path) => {
      const { headers } = await course.owner.as.get(path);
      const policy = headers.get('content-security-policy') ?? '';
      expect(policy).toContain("script-src 'self';");
      expect(policy).toContain("default-src 'self';");
      expect(policy).toContain("frame-ancestors 'none'");
      expect(policy).not.toContain('unsafe-eval');
      expect(headers.get('x-content-type-options')).toBe('nosniff');
      expect(headers.get('x-request-id')).toMatch(/^[0-9a-f-]{36}$/);
    },
  );

  it('promise https only where it is used, and then mark cookies as secure', async () => {
    expect((await course.owner.as.get('/')).headers.get('strict-transport-security')).toBeNull();
    const secure = await startApp({ environment: { HEDDLE_ORIGIN: 'https://heddle.example' } });
    try {
      const person = await secure.desk.personNamed('Secure', 'secure@example.org');
      const link = await secure.desk.people.issueSignInLink(person.email);
      expect(link).toMatch(/^https:\/\/heddle\.example\/sign-in\//);
      const token = link.slice(link.lastIndexOf('/') + 1);
      const answer = await secure
        .stranger()
        .post('/api/sign-in-links/acceptance', { token }, { origin: 'https://heddle.example' });
      expect(answer.expect(204).headers.getSetCookie().join()).toMatch(/__Secure-heddle\.session_token=.*Secure/);
      expect(answer.headers.get('strict-transport-security')).toContain('max-age');
    } finally {
      await secure.stop();
    }
  });
});

describe('bodies', () => {
  it('are refused when they are too large, with the same form of answer', async () => {
    (await course.owner.as.post('/api/courses', { title: 'x', summary: 'y'.repeat(300_000) })).refused(
      413,
      'too-large',
    );
  });

  it('are refused when they are no JSON, of another type, or reach for prototypes', async () => {
    (await course.owner.as.post('/api/courses', '{"title":')).refused(400, 'body-invalid');
    (await course.owner.as.post('/api/courses', 'title=x', { 'content-type': 'text/csv' })).refused(
      400,
      'body-invalid',
    );
    (await course.owner.as.post('/api/courses', '{"__proto__":{"title":"x"}}')).refused(400, 'body-invalid');
    (await course.owner.as.post('/api/courses', '[]')).refused(400, 'body-invalid');
  });

  it('keep only what the contract names', async () => {
    const answer = (
      await course.owner.as.post('/api/courses', { title: 'Plain', role: 'owner', id: 'mine', version: 9 })
    ).expect(201);
    expect(answer.json).not.toHaveProperty('version');
    expect(answer.json).not.toMatchObject({ id: 'mine' });
  });
});

describe('the web app', () => {
  it('is served on every page of its own, and its files for a long time', async () => {
    for (const page of ['/', '/courses/abc', '/sign-in/token-in-path']) {
      const answer = (await api.stranger().get(page)).expect(200);
      expect(answer.text).toContain('Test page');
      expect(answer.headers.get('cache-control')).toBe('no-cache');
    }
    const file = (await api.stranger().get('/assets/app-0a1b2c.js')).expect(200);
    expect(file.headers.get('cache-control')).toContain('immutable');
    expect(file.headers.get('content-type')).toContain('javascript');
  });

  it('does not answer for the API, for files that are not there, or for what lies outside its folder', async () => {
    (await api.stranger().get('/api/nothing')).refused(404, 'not-found');
    (await api.stranger().post('/api/nothing')).refused(404, 'not-found');
    (await api.stranger().get('/assets/gone.js')).refused(404, 'not-found');
    const outside = await api.stranger().get('/%2e%2e/app.ts');
    expect([403, 404]).toContain(outside.status);
  });
});

it('tells a bug of ours by a number and nothing more', async () => {
  const broken = await startApp({ environment: { HEDDLE_LOG_LEVEL: 'silent' } });
  try {
    const { as, person } = await broken.person('Unlucky');
    const { Database } = await import('../../api/database/database.ts');
    await broken.app.get(Database).manager.query('ALTER TABLE membership RENAME TO elsewhere');
    const { detail, requestId } = (await as.get('/api/shelf')).refused(500, 'internal');
    expect(detail).toContain(requestId);
    expect(detail).not.toContain('membership');
    expect(person.name).toBe('Unlucky');
  } finally {
    await broken.stop();
  }
});
