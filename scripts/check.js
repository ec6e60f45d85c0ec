// `npm run check`: format, types, lint, arrows, dead code. Every check runs even when an earlier one fails.
import { spawn } from 'node:child_process';
import { ensureInstalled, root } from './ensure.js';

const core = ['music', 'contract', 'recording', 'command', 'measure', 'migrations', 'seed', 'launch'];

/** Rules that know types make lint by far the longest check, so it goes in two halves; what is not of the core is in the other. */
const lint = (name, targets) => [
  name,
  'eslint/bin/eslint.js',
  ['--max-warnings', '0', '--cache', '--cache-location', `.cache/eslint/${name.replaceAll(' ', '-')}`, ...targets],
];
const cache = ['--cache', '--cache-strategy', 'content', '--cache-location', '.cache/prettier'];

/** The longest first. */
const checks = [
  lint('lint of the rest', ['.', ...core.flatMap((folder) => ['--ignore-pattern', `${folder}/**`])]),
  lint('lint of the core', core),
  ['types', 'typescript/bin/tsc', ['-b']],
  ['arrows', 'dependency-cruiser/bin/dependency-cruise.mjs', ['--output-type', 'err', ...core, 'api', 'web']],
  ['dead code', 'knip/bin/knip.js', []],
  ['format', 'prettier/bin/prettier.cjs', ['--check', '--log-level', 'warn', ...cache, '.']],
];

function runCheck([name, program, args]) {
  const startedAt = performance.now();
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [`node_modules/${program}`, ...args], {
      cwd: root,
      stdio: ['ignore', 'pipe', 'pipe'],
      env: { ...process.env, FORCE_COLOR: '0' },
    });
    let output = '';
    for (const stream of [child.stdout, child.stderr]) stream.on('data', (chunk) => (output += chunk));
    child.once('exit', (code) => {
      const seconds = ((performance.now() - startedAt) / 1000).toFixed(1);
      console.log(`${code === 0 ? 'ok    ' : 'FAILED'} ${name} (${seconds} s)`);
      if (code !== 0) console.log(output);
      resolve(code === 0);
    });
  });
}

/** Does what is left, one check after the other. */
async function runNext(left) {
  const check = left.shift();
  if (check === undefined) return true;
  const isRight = await runCheck(check);
  return (await runNext(left)) && isRight;
}

ensureInstalled();
// None needs what another makes, so two run at a time: two cores are the measure.
const left = [...checks];
const results = await Promise.all([runNext(left), runNext(left)]);
process.exit(results.every(Boolean) ? 0 : 1);
