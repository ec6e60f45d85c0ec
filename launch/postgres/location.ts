import { createHash } from 'node:crypto';
import { chmodSync, existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { StartFailure } from '../failure.ts';
import { canReach, databaseUser } from './database-user.ts';

/** Where the database of a data folder lies: inside it, or where its user can reach when a parent folder is closed. */
export interface DatabaseLocation {
  readonly folder: string;
  /** A sentence for the person who starts, when the place is not the expected one. */
  readonly notice: string | null;
}

/** Chooses the place, and leaves a note of it in `data/LOCATION` when it lies elsewhere. What was made once is found again, whatever became of the folders above. **Errors** `StartFailure` where a database lies out of its user's reach. */
export function locateDatabase(dataFolder: string): DatabaseLocation {
  const inside = join(dataFolder, 'postgres');
  const isReachable = canReach(inside, databaseUser());
  if (existsSync(join(inside, 'PG_VERSION'))) {
    if (isReachable) return { folder: inside, notice: null };
    throw new StartFailure(
      `The database in ${inside} cannot be reached by the user ${databaseUser().name}, who runs it: a folder above it has been closed. Open the folders above it (chmod a+x), or move the data folder.`,
    );
  }
  const noted = notedLocation(dataFolder);
  if (noted === null && isReachable) return { folder: inside, notice: null };
  return elsewhere(dataFolder, noted ?? nameFor(dataFolder));
}

const nameFor = (dataFolder: string): string =>
  join('/var/lib/heddle', createHash('sha256').update(dataFolder).digest('hex').slice(0, 16));

/** The place that an earlier start noted, if a database was made there. */
function notedLocation(dataFolder: string): string | null {
  const note = join(dataFolder, 'LOCATION');
  if (!existsSync(note)) return null;
  const place = readFileSync(note, 'utf8').trim();
  return existsSync(join(place, 'postgres', 'PG_VERSION')) ? place : null;
}

function elsewhere(dataFolder: string, place: string): DatabaseLocation {
  mkdirSync(place, { recursive: true });
  chmodSync('/var/lib/heddle', 0o755);
  chmodSync(place, 0o755);
  writeFileSync(join(dataFolder, 'LOCATION'), `${place}\n`);
  return {
    folder: join(place, 'postgres'),
    notice: `The database lies in ${place}, since its user cannot pass through the folders above ${dataFolder}.`,
  };
}
