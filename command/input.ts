import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { readScoreFile, type ReadFile } from '../music/index.ts';
import type { Command } from './command.ts';
import { CannotDo } from './failures.ts';
import { issueText } from './say.ts';

/** The options of every command that say how its file is to be read. */
export const inputOptions = {} as const satisfies Command['options'];

/** What the help says about them. */
export const inputDetails = '';

const reasons: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  EISDIR: 'it is a folder',
  EACCES: 'you may not read it',
};

function bytesOf(path: string): Uint8Array {
  try {
    return new Uint8Array(readFileSync(path));
  } catch (error) {
    const { code = '', message } = error as NodeJS.ErrnoException;
    throw new CannotDo(`${path} cannot be read: ${reasons[code] ?? message}. Nothing was written.`);
  }
}

/** The score in a file, with what was found while it was read. **Errors** `CannotDo` with every reason. */
export function readInput(path: string): ReadFile {
  const read = readScoreFile(bytesOf(path), { fileName: basename(path), firstNoteNumber: 1, firstBarNumber: 1 });
  if (read.ok) return read.value;
  throw new CannotDo([`${path} cannot be read. Nothing was written.`, ...read.refusal.map(issueText)].join('\n'));
}
