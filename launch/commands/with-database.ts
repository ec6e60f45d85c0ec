import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { holdData } from '../data-lock.ts';
import { embeddedDatabase, outsideDatabase } from '../database.ts';
import { StartFailure } from '../failure.ts';
import type { StartSettings } from '../settings.ts';

/** Does `work` with the database of the settings: the one that runs already, or the embedded one started for as long as it takes. */
export async function withDatabase<Value>(
  settings: StartSettings,
  work: (url: string) => Promise<Value>,
): Promise<Value> {
  if (settings.databaseUrl !== null) return work((await outsideDatabase(settings.databaseUrl)).url);
  const running = join(settings.dataFolder, 'database.url');
  let release: () => void;
  try {
    release = holdData(settings.dataFolder, 'a command');
  } catch (error) {
    if (!(error instanceof StartFailure) || !existsSync(running)) throw error;
    return work(readFileSync(running, 'utf8')); // Heddle runs: its database serves this command too
  }
  const database = await embeddedDatabase(settings.dataFolder);
  try {
    return await work(database.url);
  } finally {
    await database.stop();
    release();
  }
}
