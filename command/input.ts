import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { readScoreFile, type GridKind, type ReadFile } from '../music/index.ts';
import { wordOption, type Command, type Given } from './command.ts';
import { CannotDo } from './failures.ts';
import { issueText } from './say.ts';

const grids: readonly GridKind[] = ['auto', 'straight', 'triplet', 'swing'];

/** The options of every command that say how its file is to be read. */
export const inputOptions = { grid: { type: 'string' } } as const satisfies Command['options'];

/** What the help says about them. */
export const inputDetails = `--grid G     how the time of a MIDI file is counted: ${grids.join(', ')}; otherwise auto`;

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

/** The score in a file, with what was found while it was read. **Errors** `CannotDo` with every reason, `WrongUse`. */
export function readInput(path: string, given: Given): ReadFile {
  const grid = wordOption(given, 'grid', grids);
  const read = readScoreFile(bytesOf(path), { fileName: basename(path), firstNoteNumber: 1, firstBarNumber: 1, grid });
  if (read.ok) return read.value;
  throw new CannotDo([`${path} cannot be read. Nothing was written.`, ...read.refusal.map(issueText)].join('\n'));
}
