import { createHash } from 'node:crypto';
import { chmodSync, existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { canReach, databaseUser } from './database-user.ts';

/** Where the database of a data folder lies: inside it, or where its user can reach when a parent folder is closed. */
export interface DatabaseLocation {
  readonly folder: string;
  /** A sentence for the person who starts, when the place is not the expected one. */
  readonly notice: string | null;
}

/** Chooses the place, and leaves a note of it in `data/LOCATION` when it lies elsewhere. */
export function locateDatabase(dataFolder: string): DatabaseLocation {
  const inside = join(dataFolder, 'postgres');
  if (canReach(inside, databaseUser())) return { folder: inside, notice: null };
  const name = createHash('sha256').update(dataFolder).digest('hex').slice(0, 16);
  const elsewhere = join('/var/lib/heddle', name);
  if (!existsSync(elsewhere)) mkdirSync(elsewhere, { recursive: true });
  chmodSync('/var/lib/heddle', 0o755);
  chmodSync(elsewhere, 0o755);
  writeFileSync(join(dataFolder, 'LOCATION'), `${elsewhere}\n`);
  return {
    folder: join(elsewhere, 'postgres'),
    notice: `The database lies in ${elsewhere}, since its user cannot pass through the folders above ${dataFolder}.`,
  };
}
