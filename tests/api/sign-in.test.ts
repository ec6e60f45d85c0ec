import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { me } from '../../contract/index.ts';
import { startApp, type TestApp } from '../support/app.ts';
import type { Answer, Caller } from '../support/caller.ts';

const secret = 'a quiet pair of looms';
let api: TestApp;
beforeAll(async () => {
  api = await startApp();
});
afterAll(() => api.stop());

const rows = async (sql: string, values: unknown[] = []): Promise<Record<string, unknown>[]> => {
  const client = new pg.Client({ connectionString: api.databaseUrl });
  await client.connect();
  try {
    return (await client.query<Record<string, unknown>>(sql, values)).rows;
  } finally {
    await client.end();
  }
};
const originOf = (target: string | URL | Request): string =>
  new URL(target instanceof Request ? target.url : target).origin;
const tokenOf = (link: string): string => link.slice(link.lastIndexOf('/') + 1);
const open = (caller: Caller, link: string): Promise<Answer> =>
  caller.post('/api/sign-in-links/acceptance', { token: tokenOf(link) });

describe('a sign-in link', () => {
  it('lets its person in, once', async () => {
    await api.desk.personNamed('Link One', 'link.one@example.org');
    const link = await api.desk.people.issueSignInLink('Link.One@example.org');
    expect(link).toMatch(/^http:\/\/localhost:\d+\/sign-in\/[A-Za-z]{32}$/);
    const caller = api.stranger();
    const answer = (await open(caller, link)).expect(204);
    expect(answer.headers.getSetCookie().join()).toMatch(/heddle\.session_token=[^;]+;.*HttpOnly;.*SameSite=Lax/i);
    expect((await caller.get('/api/me')).expect(200).as(me)).toMatchObject({
      name: 'Link One',
      email: 'link.one@example.org',
      hasPassword: false,
    });
    (await open(api.stranger(), link)).refused(410, 'code-expired');
  });

  it('of two who use it at the same moment lets in one', async () => {
    await api.desk.personNamed('Race', 'race@example.org');
    const link = await api.desk.people.issueSignInLink('race@example.org');
    const answers = await Promise.all([1, 2, 3, 4].map(() => open(api.stranger(), link)));
    expect(answers.map(({ status }) => status).sort()).toEqual([204, 410, 410, 410]);
  });

  it('runs out after fifteen minutes', async () => {
    await api.desk.personNamed('Late', 'late@example.org');
    const link = await api.desk.people.issueSignInLink('late@example.org');
    const [row] = await rows(
      'SELECT expires_at - now() AS left FROM sign_in_verification ORDER BY created_at DESC LIMIT 1',
    );
    const { minutes = 0, seconds = 0 } = row?.['left'] as { minutes?: number; seconds?: number };
    expect(minutes * 60 + seconds).toBeGreaterThan(14 * 60 + 30);
    expect(minutes * 60 + seconds).toBeLessThanOrEqual(15 * 60);
    await rows("UPDATE sign_in_verification SET expires_at = now() - interval '1 second'");
    (await open(api.stranger(), link)).refused(410, 'code-expired');
  });

  it('is kept nowhere as it is given out, and is made for known addresses only', async () => {
    await api.desk.personNamed('Hidden', 'hidden@example.org');
    const token = tokenOf(await api.desk.people.issueSignInLink('hidden@example.org'));
    const kept = await rows('SELECT identifier, value FROM sign_in_verification');
    expect(kept.length).toBeGreaterThan(0);
    expect(JSON.stringify(kept)).not.toContain(token);
    await expect(api.desk.people.issueSignInLink('nobody@example.org')).rejects.toMatchObject({ code: 'not-found' });
    (await open(api.stranger(), '/aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa')).refused(410, 'code-expired');
    (await api.stranger().post('/api/sign-in-links/acceptance', { token: 'short' })).refused(400, 'body-invalid');
  });
});

describe('a password', () => {
  it('is set by its person, kept as Argon2id, and signs in', async () => {
    const { as, person } = await api.person('Pass One');
    (await as.put('/api/me/password', { password: secret })).expect(204);
    const [account] = await rows('SELECT password FROM sign_in_account WHERE person_id = $1', [person.id]);
    expect(account?.['password']).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$/);
    const caller = api.stranger();
    (await caller.post('/api/auth/sign-in/email', { email: person.email, password: secret })).expect(200);
    expect((await caller.get('/api/me')).expect(200).as(me).hasPassword).toBe(true);
  });

  it('is told wrong in the same words whether or not the address is known', async () => {
    const { as, person } = await api.person('Pass Two');
    await as.put('/api/me/password', { password: secret });
    const known = (
      await api.stranger().post('/api/auth/sign-in/email', { email: person.email, password: 'not this one' })
    ).refused(401, 'not-signed-in');
    const unknown = (
      await api.stranger().post('/api/auth/sign-in/email', { email: 'who@example.org', password: 'not this one' })
    ).refused(401, 'not-signed-in');
    expect(unknown.detail).toBe(known.detail);
  });

  it('is changed only by who tells the present one, and is long enough', async () => {
    const { as } = await api.person('Pass Three');
    (await as.put('/api/me/password', { password: 'short' })).refused(400, 'body-invalid');
    (await as.put('/api/me/password', { password: secret })).expect(204);
    (await as.put('/api/me/password', { password: 'another long one' })).refused(403, 'not-permitted');
    (await as.put('/api/me/password', { current: 'wrong', password: 'another long one' })).refused(
      403,
      'not-permitted',
    );
    (await as.put('/api/me/password', { current: secret, password: 'another long one' })).expect(204);
    (await api.stranger().put('/api/me/password', { password: secret })).refused(401, 'not-signed-in');
  });

  it('that is changed ends every other session of its person', async () => {
    const { as, person } = await api.person('Pass Four');
    await as.put('/api/me/password', { password: secret });
    const other = api.stranger();
    (await other.post('/api/auth/sign-in/email', { email: person.email, password: secret })).expect(200);
    (await as.put('/api/me/password', { current: secret, password: 'another long one' })).expect(204);
    (await other.get('/api/me')).refused(401, 'not-signed-in');
    (await as.get('/api/me')).expect(200);
  });
});

describe('a session', () => {
  it('ends when its person signs out', async () => {
    const { as } = await api.person('Leaver');
    const cookie = as.cookie;
    (await as.post('/api/auth/sign-out')).expect(200);
    (await as.get('/api/me')).refused(401, 'not-signed-in');
    (await api.stranger().get('/api/me', { cookie })).refused(401, 'not-signed-in');
  });

  it('is no session when somebody makes its cookie up', async () => {
    const { as } = await api.person('Forged');
    const [name, value = ''] = as.cookie.split('=');
    (await api.stranger().get('/api/me', { cookie: `${name}=${value.split('.')[0] ?? ''}.AAAA` })).refused(
      401,
      'not-signed-in',
    );
    (await api.stranger().get('/api/me', { cookie: `${name}=nonsense` })).refused(401, 'not-signed-in');
  });
});

it('opens nothing else of the sign-in library: no sign-up, no links by request', async () => {
  const newcomer = { name: 'Sneak', email: 'sneak@example.org', password: secret };
  for (const path of [
    'sign-up/email',
    'sign-in/magic-link',
    'change-email',
    'update-user',
    'delete-user',
    'list-sessions',
  ]) {
    (await api.stranger().post(`/api/auth/${path}`, newcomer)).refused(404, 'not-found');
  }
  (await api.stranger().get('/api/auth/magic-link/verify?token=x')).refused(404, 'not-found');
  expect(await rows('SELECT 1 FROM person WHERE email = $1', [newcomer.email])).toEqual([]);
});

it('tells nobody outside of anything that happens here', async () => {
  const calls = vi.spyOn(globalThis, 'fetch');
  const quiet = await startApp();
  try {
    await quiet.person('Quiet');
    expect(calls.mock.calls.map(([target]) => originOf(target)).filter((origin) => origin !== quiet.origin)).toEqual(
      [],
    );
    expect(calls).toHaveBeenCalled();
  } finally {
    calls.mockRestore();
    await quiet.stop();
  }
});
