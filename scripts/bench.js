// `npm run bench`: prints each budget with its figure. Names of benches as arguments choose some; `hostile`, which reads a hundred thousand
// broken files, and `playing`, which listens to a browser for a minute, run when they are named only. A timing is never a test.
import { spawnSync } from 'node:child_process';
import { ensureBuilt, ensureInstalled, root, run } from './ensure.js';

const names = [
  'accuracy',
  'reliability',
  'teacher',
  'splitting',
  'reading',
  'writing',
  'fingering',
  'sounding',
  'web-size',
];

const [mode, ...rest] = process.argv.slice(2);

function print(line) {
  if (typeof line === 'string') return console.log(line);
  const { what, budget, figure, holds, peer } = line;
  const verdict = holds === null ? '     ' : holds ? 'holds' : 'OVER ';
  console.log(
    `${verdict}  ${what.padEnd(58)} ${figure.padStart(12)}   budget ${budget}${peer === '' ? '' : `   (${peer})`}`,
  );
}

if (mode === '--one') {
  const { bench } = await import(`./bench/${rest[0]}.js`);
  for (const line of await bench()) print(line);
} else {
  ensureInstalled();
  ensureBuilt();
  run(process.execPath, ['node_modules/typescript/bin/tsc', '-b', 'measure']);
  const chosen = mode === undefined ? names : [mode, ...rest];
  // A process for each, so that one's heap and compiled code do not colour the next.
  for (const name of chosen)
    spawnSync(process.execPath, ['--expose-gc', 'scripts/bench.js', '--one', name], { cwd: root, stdio: 'inherit' });
}
