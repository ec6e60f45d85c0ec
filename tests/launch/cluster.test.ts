import { chmodSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { startCluster } from '../../launch/postgres/cluster.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'heddle-cluster-'));
  chmodSync(folder, 0o755); // as root, the database's own user must pass through
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

async function ask(url: string, statement: string): Promise<unknown[]> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    return (await client.query<Record<string, unknown>>(statement)).rows;
  } finally {
    await client.end();
  }
}

it('starts a Postgres 18 that asks for its password, and keeps what was written over a stop', async () => {
  const settings = { folder: join(folder, 'postgres'), isDurable: true };
  const first = await startCluster(settings);
  const [version] = await ask(first.url('postgres'), 'show server_version');
  expect(version).toMatchObject({ server_version: expect.stringMatching(/^18\./) as string });
  await ask(first.url('postgres'), 'create table kept (word text)');
  await ask(first.url('postgres'), "insert into kept values ('warp')");
  const withoutPassword = first.url('postgres').replace(/:[^:@/]+@/, ':wrong@');
  await expect(ask(withoutPassword, 'select 1')).rejects.toThrow(/password authentication failed/);
  await first.stop();
  const second = await startCluster(settings);
  expect(await ask(second.url('postgres'), 'select word from kept')).toEqual([{ word: 'warp' }]);
  await second.stop();
});
