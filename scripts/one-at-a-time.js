// What installs or builds is done by one process; others that are called meanwhile wait for it.
import { constants, copyFileSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';

const pauseMs = 200;

/** For how many pauses a file that names nobody is believed to be just being written. */
const mostNameless = 10;

function isRunning(pid) {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error.code === 'EPERM';
  }
}

const isRefusedAs = (code, deed) => {
  try {
    deed();
    return false;
  } catch (error) {
    if (error.code === code) return true;
    throw error;
  }
};

/** Makes the file that says who is at work; false where there is one already. */
const taken = (path) => !isRefusedAs('EEXIST', () => writeFileSync(path, String(process.pid), { flag: 'wx' }));

/** Who is at work by that file: null where there is none, NaN where it says nobody. */
function holderOf(path) {
  try {
    return Number(readFileSync(path, 'utf8') || NaN);
  } catch (error) {
    if (error.code === 'ENOENT') return null;
    throw error;
  }
}

/** Takes the file of a process that has ended out of the way; one that another process has put there meanwhile is put back. */
function discard(path, holder) {
  const aside = `${path}.${process.pid}`;
  if (isRefusedAs('ENOENT', () => renameSync(path, aside))) return;
  if (!Object.is(holderOf(aside), holder))
    isRefusedAs('EEXIST', () => copyFileSync(aside, path, constants.COPYFILE_EXCL));
  rmSync(aside, { force: true });
}

/** Does `work` while no other process does anything under the same path, and gives what it gives. A process that ended halfway is not waited for. */
export function oneAtATime(path, work) {
  mkdirSync(dirname(path), { recursive: true });
  let nameless = 0;
  while (!taken(path)) {
    const holder = holderOf(path);
    nameless = Number.isNaN(holder) ? nameless + 1 : 0;
    const isGone = holder > 0 ? !isRunning(holder) : nameless > mostNameless;
    if (isGone) discard(path, holder);
    else Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, pauseMs);
  }
  try {
    return work();
  } finally {
    rmSync(path, { force: true });
  }
}
