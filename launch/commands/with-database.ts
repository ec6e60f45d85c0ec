import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { holdData, holderAddress } from '../data-lock.ts';
import { embeddedDatabase, outsideDatabase } from '../database.ts';
import { StartFailure } from '../failure.ts';
import type { StartSettings } from '../settings.ts';

/** The database that a command works with. */
export interface DatabaseAtHand {
  readonly url: string;
  /** Where the Heddle that runs already is reached; null where none runs. */
  readonly runningAt: string | null;
}

/** The database of a Heddle that runs on the data folder; null where none is ready. */
function runningDatabase(dataFolder: string): DatabaseAtHand | null {
  const note = join(dataFolder, 'database.url');
  if (!existsSync(note)) return null;
  const url = readFileSync(note, 'utf8');
  if (!url.startsWith('postgres://')) {
    throw new StartFailure(`${note} is damaged. Stop Heddle and start it again, then repeat the command.`);
  }
  return { url, runningAt: holderAddress(dataFolder) };
}

/** Does `work` with the database of the settings: the one that runs already, or the embedded one started for as long as it takes. */
export async function withDatabase<Value>(
  settings: StartSettings,
  work: (database: DatabaseAtHand) => Promise<Value>,
): Promise<Value> {
  if (settings.databaseUrl !== null) {
    return work({ url: (await outsideDatabase(settings.databaseUrl)).url, runningAt: null });
  }
  let release: () => void;
  try {
    release = holdData(settings.dataFolder, 'a command');
  } catch (error) {
    const running = error instanceof StartFailure ? runningDatabase(settings.dataFolder) : null;
    if (running === null) throw error;
    return work(running);
  }
  try {
    const database = await embeddedDatabase(settings.dataFolder);
    try {
      return await work({ url: database.url, runningAt: null });
    } finally {
      await database.stop();
    }
  } finally {
    release();
  }
}
