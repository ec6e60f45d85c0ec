import { extname } from 'node:path';
import {
  midiSongOf,
  packScore,
  writeAbc,
  writeMidi,
  writeWrittenScore,
  type Issue,
  type WrittenScore,
} from '../music/index.ts';
import { WrongUse } from './failures.ts';
import { listed } from './say.ts';

/** A written-out score in one format, and what that format cannot hold. */
export interface WrittenFile {
  readonly bytes: Uint8Array;
  readonly issues: readonly Issue[];
}
type FileWriter = (written: WrittenScore) => WrittenFile;

const bytesOfText = (text: string): Uint8Array => new TextEncoder().encode(text);
const whole = (bytes: Uint8Array): WrittenFile => ({ bytes, issues: [] });

function abcFile(written: WrittenScore): WrittenFile {
  const { text, issues } = writeAbc(written);
  return { bytes: bytesOfText(text), issues };
}

const writers: ReadonlyMap<string, FileWriter> = new Map<string, FileWriter>([
  ['.musicxml', (written) => whole(bytesOfText(writeWrittenScore(written)))],
  ['.mxl', (written) => whole(packScore(writeWrittenScore(written)))],
  ['.mid', (written) => whole(writeMidi(midiSongOf(written, { repeats: 'unfolded' })))],
  ['.abc', abcFile],
]);

/** The endings of the files that can be written. */
export const writtenEndings: readonly string[] = [...writers.keys()];

/** What writes a file of this name, by its ending. **Errors** `WrongUse`. */
export function writerFor(path: string): FileWriter {
  const writer = writers.get(extname(path).toLowerCase());
  if (writer === undefined)
    throw new WrongUse(`${path} must end in ${listed(writtenEndings, 'or')}, which says what is written.`);
  return writer;
}
