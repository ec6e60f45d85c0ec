import { linkSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { StartFailure } from './failure.ts';
import { processMark } from './process-mark.ts';

interface Holder {
  readonly pid: number;
  readonly mark: string | null;
  readonly address: string;
  readonly since: string;
}

const isAlive = (holder: Holder): boolean => holder.mark !== null && processMark(holder.pid) === holder.mark;

function readHolder(file: string): { readonly text: string; readonly holder: Holder } | null {
  try {
    const text = readFileSync(file, 'utf8');
    return { text, holder: JSON.parse(text) as Holder };
  } catch {
    return null; // absent, or torn by a crash: nobody holds it
  }
}

/** Where the Heddle that holds the data folder is reached; null where nobody does, or only a command. */
export function holderAddress(folder: string): string | null {
  const address = readHolder(join(folder, 'heddle.lock'))?.holder.address ?? '';
  return address.startsWith('http') ? address : null;
}

/** Moves a lock of a dead process out of the way, unless another start was quicker. */
function clearStale(file: string, seen: string): void {
  const aside = `${file}.${process.pid}.stale`;
  try {
    renameSync(file, aside);
  } catch {
    return; // another start has cleared it
  }
  if (readFileSync(aside, 'utf8') !== seen) renameSync(aside, file);
  else rmSync(aside);
}

/**
 * Takes the data folder for this process and returns how to give it back.
 * **Errors** `StartFailure` that names the process which holds it, or that the folder cannot be written.
 */
export function holdData(folder: string, address: string): () => void {
  const file = join(folder, 'heddle.lock');
  const own = `${file}.${process.pid}`;
  try {
    mkdirSync(folder, { recursive: true });
    const holder: Holder = {
      pid: process.pid,
      mark: processMark(process.pid),
      address,
      since: new Date().toISOString(),
    };
    writeFileSync(own, JSON.stringify(holder));
  } catch (error) {
    throw new StartFailure(
      `The data folder ${folder} cannot be written (${(error as Error).message}). Set HEDDLE_DATA to one that can.`,
    );
  }
  try {
    for (let attempt = 0; attempt < 20; attempt++) {
      try {
        linkSync(own, file);
        return () => rmSync(file, { force: true });
      } catch {
        const found = readHolder(file);
        if (found !== null && isAlive(found.holder)) {
          const { pid, address: where, since } = found.holder;
          throw new StartFailure(
            `Heddle already runs on ${folder}: process ${pid} at ${where} since ${since}. Stop it first, or set HEDDLE_DATA to another folder.`,
          );
        }
        clearStale(file, found?.text ?? readFileSync(file, 'utf8'));
      }
    }
  } finally {
    rmSync(own, { force: true });
  }
  throw new StartFailure(`The lock ${file} could not be taken. Is another start going on?`);
}
