import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { holdData } from '../../launch/data-lock.ts';
import { StartFailure } from '../../launch/failure.ts';
import { processMark } from '../../launch/process-mark.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'heddle-lock-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const lock = (): string => join(folder, 'heddle.lock');

it('says who holds the data folder', () => {
  const release = holdData(folder, 'http://localhost:4710');
  expect(() => holdData(folder, 'http://localhost:4711')).toThrow(
    new RegExp(`already runs on .*: process ${process.pid} at http://localhost:4710 since`),
  );
  release();
  expect(existsSync(lock())).toBe(false);
});

it('takes over from a process that was killed, even where its number is in use again', () => {
  writeFileSync(lock(), JSON.stringify({ pid: process.pid, mark: 'another start time', address: 'x', since: 'y' }));
  holdData(folder, 'http://localhost:4710')();
  writeFileSync(lock(), JSON.stringify({ pid: 2 ** 22 + 1, mark: '1', address: 'x', since: 'y' }));
  holdData(folder, 'http://localhost:4710')();
});

it('takes over a lock that a crash left torn', () => {
  writeFileSync(lock(), '{"pid": 12');
  holdData(folder, 'http://localhost:4710')();
  expect(existsSync(lock())).toBe(false);
});

it('says that a folder cannot be written', () => {
  const file = join(folder, 'a-file');
  writeFileSync(file, '');
  expect(() => holdData(join(file, 'data'), 'http://localhost:4710')).toThrow(StartFailure);
});

it('marks a living process and no dead one', () => {
  expect(processMark(process.pid)).toMatch(/\S/);
  expect(processMark(2 ** 22 + 1)).toBeNull();
});
