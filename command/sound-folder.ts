import { closeSync, mkdirSync, openSync, renameSync, rmSync, statSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import type { Sink } from '../recording/index.ts';
import { CannotDo } from './failures.ts';

interface OpenFile {
  readonly handle: number;
  readonly part: string;
  readonly path: string;
  bytes: number;
}

const because = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** Files that are being written into a folder: they get their names once all of them are whole, and until then replace nothing. */
export class SoundFolder {
  private readonly folder: string;
  private readonly files = new Map<string, OpenFile>();

  /** **Errors** `CannotDo` where there can be no such folder. */
  constructor(folder: string) {
    this.folder = folder;
    try {
      mkdirSync(folder, { recursive: true });
      if (!statSync(folder).isDirectory()) throw new Error('it is no folder');
    } catch (error) {
      throw new CannotDo(`${folder} cannot be made: ${because(error)}. Nothing was written.`);
    }
  }

  /** **Errors** `CannotDo`. */
  open(name: string): Sink {
    const path = join(this.folder, name);
    const part = `${path}.${process.pid}.part`;
    const file: OpenFile = this.trying(path, () => ({ handle: openSync(part, 'w'), part, path, bytes: 0 }));
    this.files.set(name, file);
    return {
      write: (bytes, at) => {
        this.trying(path, () => writeSync(file.handle, bytes, 0, bytes.length, at));
        file.bytes = Math.max(file.bytes, at + bytes.length);
      },
    };
  }

  /** Gives all files their names; how large each is, by name. **Units** bytes. **Errors** `CannotDo`. */
  keep(): ReadonlyMap<string, number> {
    for (const { handle } of this.files.values()) closeSync(handle);
    for (const { part, path } of this.files.values()) this.trying(path, () => renameSync(part, path));
    return new Map([...this.files].map(([name, { bytes }]) => [name, bytes]));
  }

  /** Takes away whatever is not whole. */
  drop(): void {
    for (const { part } of this.files.values()) rmSync(part, { force: true });
  }

  private trying<Value>(path: string, work: () => Value): Value {
    try {
      return work();
    } catch (error) {
      throw new CannotDo(`${path} cannot be written: ${because(error)}. Nothing was written.`);
    }
  }
}
