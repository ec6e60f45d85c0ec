// What installs or builds is done by one process; others that are called meanwhile wait for it.
import { closeSync, mkdirSync, openSync, readFileSync, rmSync, writeSync } from 'node:fs';
import { dirname } from 'node:path';

const pauseMs = 200;

function isRunning(pid) {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error.code === 'EPERM';
  }
}

/** Makes the file that says who is at work; false where there is one already. */
function taken(path) {
  try {
    const handle = openSync(path, 'wx');
    writeSync(handle, String(process.pid));
    closeSync(handle);
    return true;
  } catch (error) {
    if (error.code === 'EEXIST') return false;
    throw error;
  }
}

/** Who is at work by that file: null where nobody is any more, or not yet known. */
function holderOf(path) {
  try {
    return Number(readFileSync(path, 'utf8')) || null;
  } catch (error) {
    if (error.code === 'ENOENT') return null;
    throw error;
  }
}

/** Does `work` while no other process does anything under the same path, and gives what it gives. A process that ended halfway is not waited for. */
export function oneAtATime(path, work) {
  mkdirSync(dirname(path), { recursive: true });
  while (!taken(path)) {
    const holder = holderOf(path);
    if (holder !== null && !isRunning(holder)) rmSync(path, { force: true });
    else Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, pauseMs);
  }
  try {
    return work();
  } finally {
    rmSync(path, { force: true });
  }
}
