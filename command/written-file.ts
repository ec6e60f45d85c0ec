import { extname } from 'node:path';
import { midiSongOf, packScore, writeMidi, writeWrittenScore, type WrittenScore } from '../music/index.ts';
import { WrongUse } from './failures.ts';
import { listed } from './say.ts';

/** The bytes of a written-out score in one format. */
export type FileWriter = (written: WrittenScore) => Uint8Array;

const bytesOfText = (text: string): Uint8Array => new TextEncoder().encode(text);

const writers: ReadonlyMap<string, FileWriter> = new Map([
  ['.musicxml', (written: WrittenScore) => bytesOfText(writeWrittenScore(written))],
  ['.mxl', (written: WrittenScore) => packScore(writeWrittenScore(written))],
  ['.mid', (written: WrittenScore) => writeMidi(midiSongOf(written, { repeats: 'unfolded' }))],
]);

/** The endings of the files that can be written. */
export const writtenEndings: readonly string[] = [...writers.keys()];

/** What writes a file of this name, by its ending. **Errors** `WrongUse`. */
export function writerFor(path: string): FileWriter {
  const writer = writers.get(extname(path).toLowerCase());
  if (writer === undefined)
    throw new WrongUse(`${path} must end in ${listed(writtenEndings)}, which says what is written.`);
  return writer;
}
