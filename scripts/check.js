// `npm run check`: format, types, lint, arrows, dead code. Every check runs even when an earlier one fails.
import { spawn } from 'node:child_process';
import { ensureInstalled, root } from './ensure.js';

const checks = [
  [
    'format',
    'prettier/bin/prettier.cjs',
    [
      '--check',
      '--log-level',
      'warn',
      '--cache',
      '--cache-strategy',
      'content',
      '--cache-location',
      '.cache/prettier',
      '.',
    ],
  ],
  ['types', 'typescript/bin/tsc', ['-b']],
  ['lint', 'eslint/bin/eslint.js', ['--max-warnings', '0', '--cache', '--cache-location', '.cache/eslint/', '.']],
  [
    'arrows',
    'dependency-cruiser/bin/dependency-cruise.mjs',
    [
      '--output-type',
      'err',
      'music',
      'contract',
      'recording',
      'api',
      'web',
      'migrations',
      'seed',
      'launch',
      'command',
      'measure',
    ],
  ],
  ['dead code', 'knip/bin/knip.js', []],
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

ensureInstalled();
// Lint needs no build, so it runs beside the others; two cores are the measure.
const [lint, ...others] = [checks[2], checks[0], checks[1], checks[3], checks[4]];
const inTurn = others.reduce(async (before, check) => [...(await before), await runCheck(check)], Promise.resolve([]));
const results = [await runCheck(lint), ...(await inTurn)];
process.exit(results.every(Boolean) ? 0 : 1);
