// `npm test`: readies the checkout and the browser, then runs every test. Arguments go to the test runner.
import { spawnSync } from 'node:child_process';
import { findChromium } from './browser/find-chromium.js';
import { ensureBuilt, ensureInstalled, root } from './ensure.js';

ensureInstalled();
ensureBuilt();
const HEDDLE_CHROMIUM = await findChromium();
const { status } = spawnSync(process.execPath, ['node_modules/vitest/vitest.mjs', 'run', ...process.argv.slice(2)], {
  cwd: root,
  stdio: 'inherit',
  env: { ...process.env, HEDDLE_CHROMIUM },
});
process.exit(status ?? 1);
