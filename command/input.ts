import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { readScoreFile, type GridKind, type ReadFile } from '../music/index.ts';
import { wholeOption, wordOption, type Command, type Given } from './command.ts';
import { CannotDo } from './failures.ts';
import { issueText } from './say.ts';
import { refuseUnknownParts, soundingWish } from './sounding-options.ts';

const grids: readonly GridKind[] = ['auto', 'straight', 'triplet', 'swing'];

/** The options of every command that say how its file is to be read. */
export const inputOptions = {
  tune: { type: 'string' },
  grid: { type: 'string' },
  octave: { type: 'string' },
  capo: { type: 'string' },
} as const satisfies Command['options'];

/** What the help says about them. */
export const inputDetails = `--tune N     which tune of an ABC file, by its X: number, else by its place; otherwise the first
--grid G     how the time of a MIDI file is counted: ${grids.join(', ')}; otherwise auto
--octave=N   octaves from written to sounding pitch in guitar parts, -3 to 3; otherwise as the file gives to believe
--capo C     what the pitches of a part with a capo are: shapes before it, or sounding
             Both may name parts by their ids: --octave=P1:-1,P3:0 for two parts, --octave=-1,P3:0 for all but P3`;

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
  const choices = {
    tune: wholeOption(given, 'tune', 1, 1_000_000),
    grid: wordOption(given, 'grid', grids),
  };
  const wish = soundingWish(given);
  const read = readScoreFile(bytesOf(path), {
    fileName: basename(path),
    firstNoteNumber: 1,
    firstBarNumber: 1,
    ...choices,
    ...wish,
  });
  if (read.ok) {
    refuseUnknownParts(wish, read.value);
    return read.value;
  }
  throw new CannotDo([`${path} cannot be read. Nothing was written.`, ...read.refusal.map(issueText)].join('\n'));
}
