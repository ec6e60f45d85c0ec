import { expect, it } from 'vitest';
import { hostileFile, mutationNames, nameOfHostileFile } from '../../measure/hostile/corpus.ts';
import { readHostileFiles } from '../../measure/hostile/run.ts';
import { hostileSources } from '../../measure/hostile/sources.ts';
import { hostileReader } from '../support/hostile-readers.ts';

const count = 2000;

it('answers each of two thousand broken files: a score or a reason, within 5 seconds of processor time and 512 MB', async () => {
  const outcome = await readHostileFiles(0, count, [hostileReader(), hostileReader()]);
  expect(outcome.failures).toEqual([]);
  expect(outcome.readCount + outcome.refusedCount).toBe(count);
  expect(Math.min(outcome.readCount, outcome.refusedCount)).toBeGreaterThan(count / 10);
  expect(outcome.slowestSeconds).toBeLessThan(5);
  expect(outcome.mostMegabytes).toBeLessThan(512);
}, 300_000);

it('breaks files in every way that it knows, the same way for the same seed', () => {
  const sources = hostileSources();
  const names = Array.from({ length: count }, (_, seed) => nameOfHostileFile(sources, seed));
  for (const name of mutationNames) expect(names.some((text) => text.includes(name))).toBe(true);
  expect(hostileFile(sources, 17)).toEqual(hostileFile(sources, 17));
});

it('reads every source that is not broken', async () => {
  const reader = hostileReader();
  for (const { name, bytes } of hostileSources())
    expect([name, await reader.read({ name, fileName: name, bytes })]).toMatchObject([
      name,
      { kind: 'readScore', faults: [] },
    ]);
  reader.stop();
}, 60_000);
