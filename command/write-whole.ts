import { existsSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { CannotDo } from './failures.ts';

/** Writes a file whole or not at all; what is no file, such as a pipe, is written to as it is. **Errors** `CannotDo`. */
export function writeWhole(path: string, bytes: Uint8Array): void {
  const isThere = existsSync(path);
  const isPlain = !isThere || statSync(path).isFile();
  const written = isPlain ? `${path}.${process.pid}.part` : path;
  try {
    writeFileSync(written, bytes);
    if (isPlain) renameSync(written, path);
  } catch (error) {
    if (isPlain) rmSync(written, { force: true });
    const kept = isThere ? ' It was left as it was.' : '';
    throw new CannotDo(`${path} cannot be written: ${error instanceof Error ? error.message : String(error)}.${kept}`);
  }
}
