import { DataSource } from 'typeorm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { dataSourceOptions } from '../../api/database/data-source-options.ts';
import { migrations } from '../../migrations/index.ts';
import { createTestDatabase, type TestDatabase } from '../support/database/test-database.ts';

let database: TestDatabase;
let source: DataSource;
beforeAll(async () => {
  database = await createTestDatabase();
  source = await new DataSource(dataSourceOptions(database.url)).initialize();
});
afterAll(async () => {
  await source.destroy();
  await database.drop();
});

/** Every column, key, index, check and trigger of our schema, as Postgres describes them. */
async function schema(): Promise<unknown[]> {
  const columns = await source.query<unknown[]>(
    `SELECT table_name, column_name, data_type, is_nullable, column_default, collation_name FROM information_schema.columns
      WHERE table_schema = 'public' ORDER BY table_name, column_name`,
  );
  const constraints = await source.query<unknown[]>(
    `SELECT conrelid::regclass::text AS table_name, conname, pg_get_constraintdef(oid) AS definition FROM pg_constraint
      WHERE connamespace = 'public'::regnamespace ORDER BY 1, 2`,
  );
  const indexes = await source.query<unknown[]>(
    `SELECT indexdef FROM pg_indexes WHERE schemaname = 'public' ORDER BY indexname`,
  );
  const triggers = await source.query<unknown[]>(
    'SELECT tgname, pg_get_triggerdef(oid) AS definition FROM pg_trigger WHERE NOT tgisinternal ORDER BY 1',
  );
  return [...columns, ...constraints, ...indexes, ...triggers];
}

const applied = async (): Promise<string[]> =>
  (await source.query<{ name: string }[]>('SELECT name FROM migrations ORDER BY id')).map(({ name }) => name);

describe('the migrations', () => {
  it('build the schema that the entities describe, with no drift', async () => {
    const { upQueries } = await source.driver.createSchemaBuilder().log();
    expect(upQueries.map(({ query }) => query)).toEqual([]);
  });

  it('build the tables that the sign-in library expects', async () => {
    const { getMigrations } = await import('better-auth/db/migration');
    const { signInLibrary } = await import('../../api/people/sign-in-options.ts');
    const { readConfig } = await import('../../api/config/config.ts');
    const config = readConfig({
      DATABASE_URL: database.url,
      HEDDLE_SECRET: 'only-for-tests-0123456789-ABCDEFGHIJ-abcdefghij',
    });
    const { master: pool } = source.driver as unknown as { master: Parameters<typeof signInLibrary>[0]['pool'] };
    const library = signInLibrary({
      pool,
      config,
      newId: () => '',
      onLinkToken: () => undefined,
      log: () => undefined,
    });
    const { toBeAdded, toBeCreated } = await getMigrations(library.options);
    expect([toBeCreated, toBeAdded]).toEqual([[], []]);
  });

  it('undo the last, and do it again to the same schema', async () => {
    const [before, done] = [await schema(), await applied()];
    await source.undoLastMigration();
    expect(await applied()).toEqual(done.slice(0, -1));
    await source.runMigrations();
    expect([await schema(), await applied()]).toEqual([before, done]);
  });

  it('undo all, leaving nothing behind, and do all again', async () => {
    const before = await schema();
    for (const undo of migrations.map(() => () => source.undoLastMigration())) await undo();
    const left = await source.query<{ name: string }[]>(
      `SELECT tablename AS name FROM pg_tables WHERE schemaname = 'public'`,
    );
    expect(left.map(({ name }) => name)).toEqual(['migrations']);
    expect(
      await source.query<unknown[]>(`SELECT proname FROM pg_proc WHERE pronamespace = 'public'::regnamespace`),
    ).toEqual([]);
    await source.runMigrations();
    expect(await schema()).toEqual(before);
  });

  it('are named by their time, in order', () => {
    const times = migrations.map(({ name }) => Number(/\d{13}$/.exec(name)?.[0]));
    expect(times).toEqual([...times].sort((a, b) => a - b));
    expect(new Set(times).size).toBe(migrations.length);
  });
});
