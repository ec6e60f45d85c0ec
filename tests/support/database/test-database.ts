import { randomBytes } from 'node:crypto';
import pg from 'pg';

/** A database of one test file's own. */
export interface TestDatabase {
  readonly url: string;
  drop(): Promise<void>;
}

async function asAdministrator(statement: string): Promise<void> {
  const client = new pg.Client({ connectionString: clusterUrl() });
  await client.connect();
  try {
    await client.query(statement);
  } finally {
    await client.end();
  }
}

function clusterUrl(): string {
  const url = process.env['HEDDLE_TEST_DATABASE_URL'];
  if (url === undefined)
    throw new Error('No test cluster: run this test through a vitest project whose globalSetup starts one.');
  return url;
}

/** Makes an empty database on the run's cluster. */
export async function createTestDatabase(): Promise<TestDatabase> {
  const name = `heddle_test_${randomBytes(6).toString('hex')}`;
  await asAdministrator(`CREATE DATABASE ${name}`);
  const url = new URL(clusterUrl());
  url.pathname = `/${name}`;
  return { url: url.toString(), drop: () => asAdministrator(`DROP DATABASE IF EXISTS ${name} WITH (FORCE)`) };
}
