import { chmodSync, copyFileSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { unzipSync, zipSync } from 'fflate';
import pg from 'pg';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { SystemClock } from '../../api/index.ts';
import { startCluster, type Cluster } from '../../launch/postgres/cluster.ts';
import { embeddedDatabase } from '../../launch/database.ts';
import { loadDemo } from '../../seed/load-demo.ts';
import { runBuilt } from '../support/api-process.ts';
import { startApp } from '../support/app.ts';

let folder: string;
let cluster: Cluster;
let filledUrl: string;
let archive: string;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'heddle backup ü '));
  chmodSync(folder, 0o755); // as root, the database's own user must pass through
  cluster = await startCluster({ folder: join(folder, 'postgres'), isDurable: false });
  filledUrl = cluster.url('postgres');
  const api = await startApp({ databaseUrl: filledUrl });
  await loadDemo(api.desk, new SystemClock());
  await api.app.close();
  archive = join(folder, 'all of it.zip');
});
afterAll(async () => {
  await cluster.stop();
  rmSync(folder, { recursive: true, force: true });
});

const run = (command: string, words: readonly string[], environment: Readonly<Record<string, string>>) =>
  runBuilt(`dist/launch/commands/${command}.js`, words, environment);

type Rows = Readonly<Record<string, readonly string[]>>;

/** Every row of every table as Postgres writes it, generated columns too. */
async function allOf(url: string): Promise<Rows> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    const tables = await client.query<{ name: string }>(
      "SELECT tablename AS name FROM pg_tables WHERE schemaname = 'public' ORDER BY 1",
    );
    const all: Record<string, string[]> = {};
    for (const { name } of tables.rows) {
      const { rows } = await client.query<{ row: string }>(`SELECT t::text AS row FROM "${name}" AS t ORDER BY 1`);
      all[name] = rows.map(({ row }) => row);
    }
    return all;
  } finally {
    await client.end();
  }
}

async function emptyDatabase(name: string): Promise<string> {
  const client = new pg.Client({ connectionString: filledUrl });
  await client.connect();
  await client.query(`CREATE DATABASE ${name}`);
  await client.end();
  return cluster.url(name);
}

it('writes a backup that a fresh data folder takes over row by row', async () => {
  const written = await run('backup', [archive], { DATABASE_URL: filledUrl });
  expect(written).toMatchObject({ code: 0, error: '' });
  expect(existsSync(`${archive}.part`)).toBe(false);
  const dataFolder = join(folder, 'fresh data');
  const restored = await run('restore', [archive], { HEDDLE_DATA: dataFolder });
  expect(restored).toMatchObject({ code: 0, error: '' });
  const original = await allOf(filledUrl);
  expect(Object.values(original).flat().length).toBeGreaterThan(100);
  const database = await embeddedDatabase(dataFolder);
  try {
    expect(await allOf(database.url)).toEqual(original);
  } finally {
    await database.stop();
  }
});

it('refuses a filled target and leaves it as it is', async () => {
  const before = await allOf(filledUrl);
  const { code, error } = await run('restore', [archive], { DATABASE_URL: filledUrl });
  expect([code, error]).toEqual([1, expect.stringContaining('already holds people and courses')]);
  expect(await allOf(filledUrl)).toEqual(before);
});

it('refuses an archive that is torn, damaged or none at all, before it touches the target', async () => {
  const target = await emptyDatabase('untouched');
  const whole = readFileSync(archive);
  const files = unzipSync(whole);
  const swapped = zipSync({ ...files, 'tables/person.csv': new TextEncoder().encode('id,name\n') });
  const fewer = Object.fromEntries(Object.entries(files).filter(([name]) => name !== 'tables/mark.csv'));
  for (const bytes of [whole.subarray(0, whole.length / 2), Buffer.from('no archive'), swapped, zipSync(fewer)]) {
    const damaged = join(folder, 'damaged.zip');
    writeFileSync(damaged, bytes);
    const { code, error } = await run('restore', [damaged], { DATABASE_URL: target });
    expect([code, error]).toEqual([
      1,
      expect.stringMatching(/is not a whole Heddle backup .*Nothing was changed\.\n$/),
    ]);
  }
  expect(await allOf(target)).toEqual({});
});

it('refuses a backup of another version, and changes nothing', async () => {
  const target = await emptyDatabase('of_another_version');
  const api = await startApp({ databaseUrl: target });
  await api.app.close();
  const files = unzipSync(readFileSync(archive));
  const manifest = JSON.parse(new TextDecoder().decode(files['manifest.json'])) as { migrations: string[] };
  manifest.migrations.push('FromTheFuture1');
  const newer = join(folder, 'newer.zip');
  writeFileSync(newer, zipSync({ ...files, 'manifest.json': new TextEncoder().encode(JSON.stringify(manifest)) }));
  const before = await allOf(target);
  const { code, error } = await run('restore', [newer], { DATABASE_URL: target });
  expect([code, error]).toEqual([1, expect.stringContaining('last migration is FromTheFuture1')]);
  expect(await allOf(target)).toEqual(before);
});

it('says in one sentence that a backup cannot be written, and leaves the older one whole', async () => {
  const { code, error } = await run('backup', [join(folder, 'nowhere', 'b.zip')], { DATABASE_URL: filledUrl });
  expect([code, error.trim().split('\n')]).toEqual([
    1,
    [expect.stringContaining('The backup could not be written to')],
  ]);
  const kept = join(folder, 'kept.zip');
  copyFileSync(archive, kept);
  const broken = await run('backup', [kept], { DATABASE_URL: 'postgres://nobody@127.0.0.1:9/none' });
  expect(broken.code).toBe(1);
  expect(readFileSync(kept).equals(readFileSync(archive))).toBe(true);
});
