import { randomUUID } from 'node:crypto';
import {
  accessSync,
  closeSync,
  constants,
  existsSync,
  fchmodSync,
  mkdirSync,
  openSync,
  readdirSync,
  realpathSync,
  renameSync,
  rmdirSync,
  rmSync,
  statSync,
  writeSync,
} from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import type { Sink } from '../recording/index.ts';
import { CannotDo } from './failures.ts';
import { reasonOf } from './reasons.ts';

/** What ends a process from outside. */
const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/** Where a file's bytes go in the end, and what is there now. */
interface Place {
  readonly path: string;
  /** Null where nothing is there yet. */
  readonly mode: number | null;
  /** False for a pipe or a device, which is written to as it is. */
  readonly isPlain: boolean;
}

interface OpenFile {
  readonly name: string;
  /** Null once it is closed. */
  handle: number | null;
  readonly place: Place;
  readonly written: string;
  bytes: number;
}

/** Links are followed, so that a link stays one. */
function placeAt(path: string): Place {
  const status = statSync(path, { throwIfNoEntry: false });
  if (status === undefined) {
    if (!existsSync(dirname(path))) throw new Error(`there is no folder ${dirname(path)}`);
    return { path, mode: null, isPlain: true };
  }
  if (status.isDirectory()) throw new Error('it is a folder');
  accessSync(path, constants.W_OK);
  return status.isFile()
    ? { path: realpathSync(path), mode: status.mode & 0o777, isPlain: true }
    : { path, mode: null, isPlain: false };
}

/** A device that is nearly full takes less than it is given; a pipe takes everything in order. */
function writeAll({ handle, place: { isPlain }, bytes: before }: OpenFile, bytes: Uint8Array, at: number): void {
  if (handle === null) throw new Error('it is closed');
  if (!isPlain && at !== before) throw new Error('what is no file can only be written from its beginning to its end');
  for (let done = 0; done < bytes.length;)
    done += writeSync(handle, bytes, done, bytes.length - done, isPlain ? at + done : null);
}

function close(file: OpenFile): void {
  const { handle } = file;
  file.handle = null;
  if (handle !== null) closeSync(handle);
}

function removeIfEmpty(folder: string): void {
  if (existsSync(folder) && readdirSync(folder).length === 0) rmdirSync(folder);
}

/** The folders above a path, from the path itself up to `top`. */
function foldersUpTo(path: string, top: string): readonly string[] {
  return path === top || dirname(path) === path ? [path] : [path, ...foldersUpTo(dirname(path), top)];
}

/**
 * Files that are being written: they get their names once all of them are whole, and until then replace nothing. What is
 * not whole is taken away by `drop`, and also where a signal ends the process.
 */
export class WholeFiles {
  private readonly files: OpenFile[] = [];
  private madeFolders: readonly string[] = [];

  private readonly endBySignal = (signal: NodeJS.Signals): void => {
    this.drop();
    process.kill(process.pid, signal);
  };

  constructor() {
    for (const signal of signals) process.on(signal, this.endBySignal);
  }

  /** Makes a folder where there is none. **Errors** `CannotDo`. */
  makeFolder(folder: string): void {
    try {
      const path = resolve(folder);
      const made = mkdirSync(path, { recursive: true });
      if (made !== undefined) this.madeFolders = foldersUpTo(path, made);
    } catch (error) {
      const isFile = (error as NodeJS.ErrnoException).code === 'EEXIST';
      throw new CannotDo(
        `${folder} cannot be made: ${isFile ? 'it is a file' : reasonOf(error)}. Nothing was written.`,
      );
    }
  }

  /** A file of this name, as yet to be written. **Errors** `CannotDo`, later too where it cannot be written to. */
  open(name: string): Sink {
    const file = this.trying(name, () => this.opened(name));
    return {
      write: (bytes, at) => {
        this.trying(name, () => writeAll(file, bytes, at));
        file.bytes = Math.max(file.bytes, at + bytes.length);
      },
    };
  }

  /** Gives all files their names; how large each is, by the name that it was opened with. **Units** bytes. **Errors** `CannotDo`. */
  keep(): ReadonlyMap<string, number> {
    for (const file of this.files) this.trying(file.name, () => close(file));
    for (const { name, place, written } of this.files)
      if (place.isPlain) this.trying(name, () => renameSync(written, place.path));
    return new Map(this.files.splice(0).map(({ name, bytes }) => [name, bytes]));
  }

  /** Takes away whatever did not get its name, and heeds signals no longer. */
  drop(): void {
    for (const signal of signals) process.off(signal, this.endBySignal);
    for (const file of this.files) {
      close(file);
      if (file.place.isPlain) rmSync(file.written, { force: true });
    }
    for (const folder of this.madeFolders) removeIfEmpty(folder);
  }

  private opened(name: string): OpenFile {
    const place = placeAt(name);
    const written = place.isPlain ? join(dirname(place.path), `.heddle-${randomUUID()}.part`) : place.path;
    const file: OpenFile = { name, handle: openSync(written, place.isPlain ? 'wx' : 'w'), place, written, bytes: 0 };
    this.files.push(file);
    if (file.handle !== null && place.mode !== null) fchmodSync(file.handle, place.mode);
    return file;
  }

  private trying<Value>(name: string, work: () => Value): Value {
    try {
      return work();
    } catch (error) {
      const kept = existsSync(name) ? 'It was left as it was' : 'Nothing was written';
      throw new CannotDo(`${name} cannot be written: ${reasonOf(error)}. ${kept}.`);
    }
  }
}
