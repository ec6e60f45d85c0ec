import { closeSync, openSync, readSync } from 'node:fs';
import { basename } from 'node:path';
import { fileLimits, mostOctaves, readScoreFile, type GridKind, type ReadFile } from '../music/index.ts';
import { wholeOption, wordOption, type Command, type Given } from './command.ts';
import { CannotDo } from './failures.ts';
import { readWaiting } from './read-waiting.ts';
import { reasonOf } from './reasons.ts';
import { counted, issueText } from './say.ts';
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
--octave N   octaves from written to sounding pitch in guitar parts, -${mostOctaves} to ${mostOctaves}; otherwise as the file gives to believe
--capo C     what the pitches of a part with a capo are: shapes before it, or sounding
             Both may name parts by their ids: --octave P1:-1,P3:0 for two parts, --octave -1,P3:0 for all but P3`;

/** What stands for standard input in place of a file's name. */
const standardInput = '-';
const pieceBytes = 1024 * 1024;

/** All bytes, or one more than any score may have: whatever is longer is refused without being read to its end. */
function bytesUpToLimit(handle: number): Uint8Array {
  const pieces: Uint8Array[] = [];
  for (let size = 0; size <= fileLimits.unpackedBytes;) {
    const piece = new Uint8Array(pieceBytes);
    const count = readWaiting(() => readSync(handle, piece, 0, pieceBytes, null));
    if (count === 0) break;
    pieces.push(piece.subarray(0, count));
    size += count;
  }
  return Buffer.concat(pieces);
}

function bytesOf(path: string): Uint8Array {
  let handle: number | null = null;
  try {
    handle = path === standardInput ? 0 : openSync(path, 'r');
    return bytesUpToLimit(handle);
  } catch (error) {
    throw new CannotDo(`${nameOf(path)} cannot be read: ${reasonOf(error)}. Nothing was written.`);
  } finally {
    if (handle !== null && handle !== 0) closeSync(handle);
  }
}

/** How a file is called in sentences. */
export const nameOf = (path: string): string => (path === standardInput ? 'standard input' : path);

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
  throw new CannotDo(
    [`${nameOf(path)} cannot be read. Nothing was written.`, ...read.refusal.map(issueText)].join('\n'),
  );
}

/** What reading found is told in full by `inspect`; elsewhere it is only counted, so that nothing is lost in silence. */
export function foundInReading(path: string, { issues }: Pick<ReadFile, 'issues'>): readonly string[] {
  if (issues.length === 0) return [];
  return [`${counted(issues.length, 'finding')} while ${nameOf(path)} was read; heddle inspect tells them.`];
}
