import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import pg from 'pg';
import { StartFailure } from './failure.ts';
import { startCluster } from './postgres/cluster.ts';
import { locateDatabase } from './postgres/location.ts';

/** The database of a start, wherever it runs. */
export interface Database {
  readonly url: string;
  readonly isEmbedded: boolean;
  stop(): Promise<void>;
}

const plainAddress = (url: string): string => {
  const { hostname, port, pathname } = new URL(url);
  return `${hostname}:${port || '5432'}${pathname}`;
};

async function query(url: string, statement: string): Promise<pg.QueryResult> {
  const client = new pg.Client({ connectionString: url, connectionTimeoutMillis: 5000 });
  await client.connect();
  try {
    return await client.query(statement);
  } finally {
    await client.end();
  }
}

/** Uses a Postgres that runs elsewhere. **Errors** `StartFailure` that says why it cannot be reached. */
export async function outsideDatabase(url: string): Promise<Database> {
  try {
    await query(url, 'select 1');
  } catch (error) {
    const reason: unknown = error instanceof AggregateError ? error.errors[0] : error;
    throw new StartFailure(
      `The database at ${plainAddress(url)} cannot be reached: ${(reason as Error).message}. Check DATABASE_URL, or leave it out to use the embedded one.`,
    );
  }
  return { url, isEmbedded: false, stop: () => Promise.resolve() };
}

/** Starts the embedded Postgres of a data folder; its address lies in `database.url` beside it while it runs. */
export async function embeddedDatabase(dataFolder: string): Promise<Database> {
  const { folder, notice } = locateDatabase(dataFolder);
  if (notice !== null) console.log(notice);
  const cluster = await startCluster({ folder, isDurable: true });
  const { rowCount } = await query(cluster.url('postgres'), "select 1 from pg_database where datname = 'heddle'");
  if (rowCount === 0) await query(cluster.url('postgres'), 'create database heddle');
  const note = join(dataFolder, 'database.url');
  writeFileSync(note, cluster.url('heddle'), { mode: 0o600 });
  return {
    url: cluster.url('heddle'),
    isEmbedded: true,
    stop: async () => {
      rmSync(note, { force: true });
      await cluster.stop();
    },
  };
}
