import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';

/** Tells a process from a later one with the same number: its start time as the system keeps it; null when it is gone. */
export function processMark(pid: number): string | null {
  try {
    if (process.platform === 'linux') {
      const stat = readFileSync(`/proc/${pid}/stat`, 'utf8');
      return stat.slice(stat.lastIndexOf(')') + 2).split(' ')[19] ?? null;
    }
    return execFileSync('ps', ['-o', 'lstart=', '-p', String(pid)], { encoding: 'utf8' }).trim() || null;
  } catch {
    return null; // no such process
  }
}

/** The command line of a living process, or null when it is gone. */
export function commandLineOf(pid: number): string | null {
  try {
    if (process.platform === 'linux') return readFileSync(`/proc/${pid}/cmdline`, 'utf8').split('\0').join(' ');
    return execFileSync('ps', ['-o', 'args=', '-p', String(pid)], { encoding: 'utf8' }).trim() || null;
  } catch {
    return null; // no such process
  }
}

/** Resolves to true once the process is gone, or to false after `timeoutMs`. */
export async function waitForEnd(pid: number, timeoutMs: number): Promise<boolean> {
  const deadline = performance.now() + timeoutMs;
  const mark = processMark(pid);
  while (mark !== null && processMark(pid) === mark) {
    if (performance.now() > deadline) return false;
    await new Promise((resolve) => setTimeout(resolve, 25));
  }
  return true;
}
