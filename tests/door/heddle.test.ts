import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, watch, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { tinyScore } from '../support/tiny-musicxml.ts';

// What the commands say is tested beside them; here, that a shell gets it: streams, exit codes, pipes.
const folder = mkdtempSync(join(tmpdir(), 'heddle-door-'));
const file = join(folder, 'two bars.musicxml');
writeFileSync(file, tinyScore(['E4:q F4:q G4:h | C4:w', { name: 'Flute' }]));
afterAll(() => rmSync(folder, { recursive: true }));

const heddle = (...args: readonly string[]) =>
  spawnSync(process.execPath, ['scripts/heddle.js', ...args], { encoding: 'utf8' });

it('gives JSON and nothing else on stdout', () => {
  const { status, stdout } = heddle('inspect', file, '--json');
  expect(status).toBe(0);
  expect(JSON.parse(stdout)).toMatchObject({ bars: 2, heads: 4, soundingNotes: 4, plucks: 4, meters: [[1, '4/4']] });
}, 120_000);

it('writes a file and says so', () => {
  const out = join(folder, 'out.musicxml');
  const { status, stdout, stderr } = heddle('write', file, '--bars', '2', '-o', out);
  expect([status, stdout, stderr]).toEqual([0, `Wrote 1 line of 1 bar to ${out}.\n`, '']);
  expect(readFileSync(out, 'utf8')).toContain('<score-partwise version="4.0">');
}, 120_000);

it('tells failures on stderr, with their codes', () => {
  expect(heddle('inspect', join(folder, 'absent'))).toMatchObject({ status: 1, stdout: '' });
  expect(heddle('inspect')).toMatchObject({ status: 2, stdout: '' });
}, 120_000);

it('is quiet where whoever reads stops early', () => {
  const long = join(folder, 'long.musicxml');
  writeFileSync(long, tinyScore([Array.from({ length: 3000 }, () => 'C4:q D4:q E4:q F4:q').join(' | ')]));
  const command = `"${process.execPath}" scripts/heddle.js split "${long}" --json | head -1`;
  const { stdout, stderr } = spawnSync('sh', ['-c', command], { encoding: 'utf8' });
  expect([stdout, stderr]).toEqual(['[\n', '']);
}, 120_000);

it('reads standard input, in the folder where npm was called', () => {
  const npm = ['--prefix', process.cwd(), 'run', '--silent', 'heddle', '--'];
  const options = { cwd: folder, encoding: 'utf8', input: readFileSync(file) } as const;
  const { status, stdout } = spawnSync('npm', [...npm, 'write', '-', '-o', 'from-npm.abc'], options);
  expect([status, stdout]).toEqual([0, 'Wrote 1 line of 2 bars to from-npm.abc.\n']);
  expect(readFileSync(join(folder, 'from-npm.abc'), 'utf8')).toContain('K:');
}, 120_000);

it('tells where the answer finds no room', () => {
  const command = `"${process.execPath}" scripts/heddle.js inspect "${file}" > /dev/full`;
  const { status, stderr } = spawnSync('sh', ['-c', command], { encoding: 'utf8' });
  expect([status, stderr]).toEqual([1, 'The answer cannot be written to stdout: there is no room left.\n']);
}, 120_000);

it.each(['SIGINT', 'SIGTERM', 'SIGHUP'] as const)(
  'leaves nothing half done behind when %s ends it',
  async (signal) => {
    const long = join(folder, 'long.musicxml');
    writeFileSync(long, tinyScore([Array.from({ length: 300 }, () => 'C4:q D4:q E4:q F4:q').join(' | ')]));
    const out = join(folder, `sound-${signal}`);
    mkdirSync(out);
    const watcher = watch(out);
    const begun = once(watcher, 'change');
    const rendering = spawn(process.execPath, ['scripts/heddle.js', 'render', long, '-o', join(out, 'deep')]);
    const ended = once(rendering, 'exit');
    await begun;
    expect(existsSync(join(out, 'deep'))).toBe(true);
    rendering.kill(signal);
    expect(await ended).toEqual([null, signal]);
    watcher.close();
    expect(readdirSync(out)).toEqual([]);
  },
  120_000,
);
