import { DataSource } from 'typeorm';
import { dataSourceOptions } from './data-source-options.ts';

/** Brings a database to the present schema, and leaves it. */
export async function migrateDatabase(databaseUrl: string): Promise<void> {
  const source = new DataSource(dataSourceOptions(databaseUrl));
  await source.initialize();
  await source.destroy();
}
