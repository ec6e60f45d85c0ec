import type { DataSourceOptions } from 'typeorm';
import { migrations } from '../../migrations/index.ts';
import { entities } from './entities.ts';

/** A request waits no longer than this for a connection. */
const LONGEST_WAIT_MILLISECONDS = 10_000;

/** How Heddle opens its database: our own migrations, never a schema made up from entities. */
export const dataSourceOptions = (databaseUrl: string): DataSourceOptions => ({
  type: 'postgres',
  url: databaseUrl,
  applicationName: 'heddle',
  entities: [...entities],
  migrations: [...migrations],
  migrationsRun: true,
  migrationsTransactionMode: 'each',
  synchronize: false,
  poolSize: 20,
  extra: { connectionTimeoutMillis: LONGEST_WAIT_MILLISECONDS },
});
