// Makes a checkout ready: installs what the lock file says and builds what has changed. Node built-ins only.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { hasInstalled } from './installed-packages.js';
import { oneAtATime } from './one-at-a-time.js';

/** The project's folder. */
export const root = dirname(dirname(fileURLToPath(import.meta.url)));

const builtFolders = ['music', 'contract', 'recording', 'migrations', 'api', 'seed', 'launch', 'command'];
const settings = ['tsconfig.base.json', 'tsconfig.json', 'package-lock.json'];

/** Runs a command in the project's folder, all that it says on stderr, nothing of what this process reads; ends this process with the command's code when it fails. */
export function run(command, args, options = {}) {
  const { status } = spawnSync(command, args, {
    cwd: root,
    stdio: ['ignore', process.stderr, 'inherit'],
    shell: process.platform === 'win32',
    ...options,
  });
  if (status !== 0) process.exit(status ?? 1);
}

function filesOf(folder) {
  return readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && !entry.name.includes('.test.'))
    .map((entry) => relative(root, join(entry.parentPath ?? entry.path, entry.name)))
    .sort();
}

function hashOf(files) {
  const hash = createHash('sha256');
  for (const file of files)
    hash
      .update(file)
      .update('\0')
      .update(readFileSync(join(root, file)));
  return hash.digest('hex');
}

const lock = join(root, '.cache', 'readying.lock');

/** Does `work` unless its stamp already tells of these very inputs. */
function unlessDone(stamp, inputs, work) {
  const path = join(root, stamp);
  const hash = hashOf(inputs);
  const isDone = () => existsSync(path) && readFileSync(path, 'utf8') === hash;
  if (isDone()) return;
  oneAtATime(lock, () => {
    if (isDone()) return;
    work();
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, hash);
  });
}

const installedStamp = 'node_modules/.heddle-installed';

/** Whether anything has been installed, be it for an older lock file. */
export const isInstalled = () => existsSync(join(root, installedStamp));

/** Installs exactly what the lock file says, unless that has been done. */
export function ensureInstalled() {
  unlessDone(installedStamp, ['package-lock.json', 'package.json'], () => {
    if (hasInstalled(root)) return;
    console.error('Installing what Heddle needs (once) …');
    run('npm', ['ci', '--include=dev', '--ignore-scripts', '--no-audit', '--no-fund', '--loglevel=error']);
  });
}

function compile(folders) {
  run(process.execPath, ['node_modules/typescript/bin/tsc', '-b', ...folders]);
}

/** Builds what works on files alone, without the server and the web, unless nothing has changed. */
export function ensureCommandBuilt() {
  const folders = ['music', 'recording', 'command'];
  unlessDone('dist/.command-built', [...folders.flatMap(filesOf), ...settings], () => compile(folders));
}

/** Builds the server and the web unless nothing has changed. */
export function ensureBuilt() {
  unlessDone('dist/.server-built', [...builtFolders.flatMap(filesOf), ...settings], () => {
    console.error('Building the server …');
    compile(builtFolders);
  });
  unlessDone('dist/.web-built', [...['music', 'contract', 'recording', 'web'].flatMap(filesOf), ...settings], () => {
    console.error('Building the web …');
    run(process.execPath, ['node_modules/vite/bin/vite.js', 'build', 'web', '--logLevel', 'warn']);
  });
}
