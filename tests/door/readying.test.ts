import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';

const folder = mkdtempSync(join(tmpdir(), 'heddle-readying-'));
const lock = join(folder, 'work.lock');
const log = join(folder, 'log');
afterAll(() => rmSync(folder, { recursive: true }));

const url = (name: string): string => JSON.stringify(new URL(`../../scripts/${name}`, import.meta.url).href);
const working = `
import { appendFileSync } from 'node:fs';
import { oneAtATime } from ${url('one-at-a-time.js')};
oneAtATime(${JSON.stringify(lock)}, () => {
  appendFileSync(${JSON.stringify(log)}, process.pid + ' begins\\n');
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 100);
  appendFileSync(${JSON.stringify(log)}, process.pid + ' ends\\n');
});`;
const started = () => spawn(process.execPath, ['--input-type=module', '-e', working], { stdio: 'inherit' });

describe('what readies a checkout', () => {
  it('is done by one process at a time', async () => {
    const processes = [started(), started(), started()];
    const codes = await Promise.all(processes.map(async (one) => (await once(one, 'exit'))[0] as unknown));
    expect(codes).toEqual([0, 0, 0]);
    const lines = readFileSync(log, 'utf8').trim().split('\n');
    const begun = lines.filter((_, index) => index % 2 === 0).map((line) => line.replace(' begins', ''));
    expect(lines).toEqual(begun.flatMap((pid) => [`${pid} begins`, `${pid} ends`]));
    expect(begun.map(Number).sort()).toEqual(processes.map(({ pid }) => pid).sort());
    expect(existsSync(lock)).toBe(false);
  }, 60_000);

  it('waits for no process that has ended, not even for one that ended before it could say who it was', async () => {
    const { pid } = spawnSync(process.execPath, ['-e', '']);
    for (const left of [String(pid), '']) {
      writeFileSync(lock, left);
      expect(await once(started(), 'exit')).toEqual([0, null]);
      expect(readdirSync(folder).filter((name) => name.startsWith('work.lock'))).toEqual([]);
    }
  }, 60_000);

  it('knows what npm has installed by its own note', () => {
    const needed = { integrity: 'sha512-new' };
    const foreign = { integrity: 'sha512-other', optional: true, os: ['plan9'], cpu: ['x64'] };
    const native = { integrity: 'sha512-native', optional: true, os: [process.platform], cpu: [process.arch] };
    const has = (packages: unknown): unknown => {
      writeFileSync(join(folder, 'node_modules', '.package-lock.json'), JSON.stringify({ packages }));
      const asking = `import { hasInstalled } from ${url('installed-packages.js')}; console.log(hasInstalled(${JSON.stringify(folder)}));`;
      return JSON.parse(
        spawnSync(process.execPath, ['--input-type=module', '-e', asking], { encoding: 'utf8' }).stdout,
      );
    };
    mkdirSync(join(folder, 'node_modules'));
    const packages = { '': { name: 'all' }, needed, foreign, native };
    writeFileSync(join(folder, 'package-lock.json'), JSON.stringify({ packages }));
    expect(has({ needed, native })).toBe(true);
    expect(has({ needed: { integrity: 'sha512-old' }, native })).toBe(false);
    expect(has({ native })).toBe(false);
    expect(has({ needed })).toBe(false);
  }, 60_000);
});
