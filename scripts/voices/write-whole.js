import { existsSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { BadInput } from './read-pieces.js';

/** Writes a file whole or not at all; what is no file, such as a pipe, is written to as it is. */
export function writeWhole(path, text) {
  const isPlain = !existsSync(path) || statSync(path).isFile();
  const written = isPlain ? `${path}.${process.pid}.part` : path;
  try {
    writeFileSync(written, text);
    if (isPlain) renameSync(written, path);
  } catch (error) {
    if (isPlain && existsSync(written)) rmSync(written);
    throw new BadInput(`${path} cannot be written: ${error.message}`);
  }
}
