import { once } from 'node:events';
import { createServer, type AddressInfo, type Server } from 'node:net';
import { createServer as createHttpServer } from 'node:http';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { me } from '../../contract/index.ts';
import { runBuilt, runScript, startBuilt } from '../support/api-process.ts';
import { Caller } from '../support/caller.ts';
import { createTestDatabase, type TestDatabase } from '../support/database/test-database.ts';

vi.setConfig({ testTimeout: 120_000 }); // whole processes are started here, on machines that may be busy

let database: TestDatabase;
beforeAll(async () => {
  database = await createTestDatabase();
});
afterAll(() => database.drop());

const listening = async (server: Server): Promise<number> => {
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  return (server.address() as AddressInfo).port;
};

describe('a start that cannot succeed says why in one sentence and ends with 1', () => {
  const start = (environment: Record<string, string>) =>
    runBuilt('dist/api/main.js', [], { HEDDLE_LOG_LEVEL: 'silent', ...environment });

  it('a port in use', async () => {
    const other = createServer();
    const port = await listening(other);
    const { code, error } = await start({ DATABASE_URL: database.url, PORT: String(port) });
    other.close();
    expect([code, error]).toEqual([1, `Port ${port} is in use. Stop what uses it, or set PORT to another one.\n`]);
  });

  it('a database that does not answer, or is not there', async () => {
    const nobody = createServer();
    const port = await listening(nobody);
    nobody.close();
    const silent = await start({ DATABASE_URL: `postgres://x@127.0.0.1:${port}/x` });
    expect([silent.code, silent.error]).toEqual([
      1,
      'The database does not answer. Check DATABASE_URL, and that the database runs.\n',
    ]);
    const absent = await start({ DATABASE_URL: database.url.replace(/[^/]+$/, 'not_there') });
    expect([absent.code, absent.error]).toEqual([1, 'The database named in DATABASE_URL does not exist.\n']);
  });

  it('variables that are wrong', async () => {
    const { code, error } = await start({ DATABASE_URL: 'mysql://x', PORT: 'ninety' });
    expect(code).toBe(1);
    expect(error).toMatch(/^The environment is not right: .*PORT.*DATABASE_URL.*\n$/);
  });
});

it('lets somebody in who is locked out, from the command line', async () => {
  const api = await startBuilt({ DATABASE_URL: database.url });
  try {
    const environment = { DATABASE_URL: database.url, HEDDLE_ORIGIN: api.origin };
    const unknown = await runBuilt('dist/api/cli/sign-in-link.js', ['ada@example.org'], environment);
    expect([unknown.code, unknown.error]).toEqual([1, 'Nobody here has the address ada@example.org.\n']);
    const made = await runBuilt('dist/api/cli/sign-in-link.js', ['ada@example.org', '--name', 'Ada'], environment);
    expect(made).toMatchObject({ code: 0, error: '' });
    const [link = ''] = made.out.trim().split('\n');
    expect(link.startsWith(`${api.origin}/sign-in/`)).toBe(true);
    const caller = new Caller(api.origin);
    (await caller.post('/api/sign-in-links/acceptance', { token: link.slice(link.lastIndexOf('/') + 1) })).expect(204);
    expect((await caller.get('/api/me')).as(me).name).toBe('Ada');
  } finally {
    await api.stop();
  }
});

it('reports nothing about itself, even where the environment asks the sign-in library to', async () => {
  const reports: string[] = [];
  const collector = createHttpServer((request, response) => {
    reports.push(request.url ?? '');
    response.end();
  });
  const endpoint = `http://127.0.0.1:${await listening(collector)}/reports`;
  const wish = { BETTER_AUTH_TELEMETRY: 'true', BETTER_AUTH_TELEMETRY_ENDPOINT: endpoint };
  const api = await startBuilt({ DATABASE_URL: database.url, NODE_ENV: 'production', ...wish });
  try {
    await new Caller(api.origin).post('/api/auth/sign-in/email', {
      email: 'nobody@example.org',
      password: 'guess guess',
    });
    expect(reports).toEqual([]);
    // The check can fail: the same library, left to that wish, does report to the same address.
    await runScript(
      `import { betterAuth } from 'better-auth'; await betterAuth({ baseURL: '${api.origin}', secret: '${'lone loom '.repeat(4)}' }).$context;`,
      wish,
    );
    expect(reports.length).toBeGreaterThan(0);
  } finally {
    await api.stop();
    collector.close();
  }
});

it('ends by itself within moments when it is asked to', async () => {
  const api = await startBuilt({ DATABASE_URL: database.url });
  const ended = once(api.child, 'exit');
  api.child.kill('SIGINT');
  const [code, signal] = (await ended) as [number | null, string | null];
  expect(code ?? signal).toSatisfy((end: unknown) => end === 0 || end === 'SIGINT');
  await expect(fetch(`${api.origin}/healthz`)).rejects.toThrow();
});
