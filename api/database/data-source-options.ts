import type { DataSourceOptions } from 'typeorm';
import { migrations } from '../../migrations/index.ts';
import { entities } from './entities.ts';

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
});
