import { readFileSync, statSync } from 'node:fs';
import { userInfo } from 'node:os';
import { dirname } from 'node:path';
import { StartFailure } from '../failure.ts';

/** Who runs the database: Postgres refuses root, so root hands it to an unprivileged user. */
export interface DatabaseUser {
  readonly name: string;
  readonly uid?: number;
  readonly gid?: number;
}

/** The present user, or for root the user `postgres`, else `nobody`. */
export function databaseUser(): DatabaseUser {
  if (process.getuid?.() !== 0) return { name: userInfo().username };
  const entries = readFileSync('/etc/passwd', 'utf8')
    .split('\n')
    .map((entry) => entry.split(':'));
  const entry = entries.find(([name]) => name === 'postgres') ?? entries.find(([name]) => name === 'nobody');
  if (entry === undefined) {
    throw new StartFailure(
      'Started as root, but there is neither a user postgres nor nobody to run the database. Set DATABASE_URL, or start as another user.',
    );
  }
  return { name: entry[0] ?? '', uid: Number(entry[2]), gid: Number(entry[3]) };
}

/** Whether `user` may pass through every folder above `path`. */
export function canReach(path: string, user: DatabaseUser): boolean {
  if (user.uid === undefined) return true;
  for (let folder = dirname(path); ; folder = dirname(folder)) {
    const { mode, uid, gid } = statSync(folder);
    const mask = uid === user.uid ? 0o100 : gid === user.gid ? 0o010 : 0o001;
    if ((mode & mask) === 0) return false;
    if (folder === dirname(folder)) return true;
  }
}
