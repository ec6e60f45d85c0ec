import { WholeFiles } from './whole-files.ts';

/** Writes a file whole or not at all. **Errors** `CannotDo`. */
export function writeWhole(path: string, bytes: Uint8Array): void {
  const files = new WholeFiles();
  try {
    files.open(path).write(bytes, 0);
    files.keep();
  } finally {
    files.drop();
  }
}
