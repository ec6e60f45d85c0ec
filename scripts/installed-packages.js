// Whether npm has already installed what the lock file says, as after `npm ci` by hand.
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

const packagesIn = (path) => JSON.parse(readFileSync(path, 'utf8')).packages;

/** Packages for other systems are left out by npm; of those that only some systems have, what names this one must be there. */
const isNeeded = ({ optional, os, cpu, libc }) =>
  optional !== true ||
  (os?.includes(process.platform) === true && cpu?.includes(process.arch) === true && libc === undefined);

/** By npm's own note of what it has put into `node_modules`. */
export function hasInstalled(root) {
  const noted = join(root, 'node_modules', '.package-lock.json');
  if (!existsSync(noted)) return false;
  const there = packagesIn(noted);
  return Object.entries(packagesIn(join(root, 'package-lock.json'))).every(
    ([path, wanted]) => path === '' || !isNeeded(wanted) || there[path]?.integrity === wanted.integrity,
  );
}
