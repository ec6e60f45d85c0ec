// `npm run bench`: prints each budget with its figure. Names of benches as arguments choose some; `hostile`, which reads a hundred thousand
// broken files, and `playing` and `sound-files`, which need a browser for a minute, run when they are named only. A timing is never a test.
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

const onlyNamed = ['hostile', 'playing', 'sound-files'];

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
  const chosen = mode === undefined ? names : [mode, ...rest];
  const unknown = chosen.filter((name) => ![...names, ...onlyNamed].includes(name));
  if (unknown.length > 0) {
    console.error(`There is no bench ${unknown.join(', ')}; there are ${[...names, ...onlyNamed].join(', ')}.`);
    process.exit(2);
  }
  ensureInstalled();
  ensureBuilt();
  run(process.execPath, ['node_modules/typescript/bin/tsc', '-b', 'measure']);
  // A process for each, so that one's heap and compiled code do not colour the next.
  for (const name of chosen) {
    const args = ['--expose-gc', 'scripts/bench.js', '--one', name];
    const { status } = spawnSync(process.execPath, args, { cwd: root, stdio: 'inherit' });
    if (status !== 0) process.exitCode = 1;
  }
}
