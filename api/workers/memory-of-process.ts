import { execFile } from 'node:child_process';
import { readFile } from 'node:fs/promises';
import { promisify } from 'node:util';

const PAGE_BYTES = 4096;
const KILOBYTE = 1024;
const run = promisify(execFile);

async function fromProcFolder(pid: number): Promise<number | null> {
  try {
    const fields = (await readFile(`/proc/${pid}/statm`, 'utf8')).split(' ');
    return Number(fields[1]) * PAGE_BYTES;
  } catch {
    return null; // no /proc here, or the process is gone
  }
}

async function fromList(pid: number): Promise<number | null> {
  try {
    const { stdout } = await run('ps', ['-o', 'rss=', '-p', String(pid)]);
    return Number(stdout.trim()) * KILOBYTE;
  } catch {
    return null; // the process is gone, or this machine has no ps
  }
}

/** The memory that a process holds; null where it is gone or cannot be asked. **Units** bytes. */
export async function memoryOfProcess(pid: number): Promise<number | null> {
  return process.platform === 'linux' ? fromProcFolder(pid) : fromList(pid);
}
