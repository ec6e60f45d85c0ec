import { afterEach, describe, expect, it } from 'vitest';
import type { ReadJob } from '../../api/workers/jobs.ts';
import { Worker } from '../../api/workers/worker.ts';

const entry = new URL('../support/misbehaving-worker.mjs', import.meta.url);
const job = (fileName: string): ReadJob => ({
  kind: 'read',
  bytes: new Uint8Array(1),
  fileName,
  firstNoteNumber: 1,
  firstBarNumber: 1,
  wish: { kind: 'asBefore', before: null },
  known: null,
});
const open: Worker[] = [];
const start = (limits: { limitSeconds: number; limitMegabytes: number }): Worker => {
  const worker = new Worker(entry, limits);
  open.push(worker);
  return worker;
};
afterEach(() => {
  for (const worker of open.splice(0)) worker.stop();
});

describe('a worker process', () => {
  it('does one job after the other', async () => {
    const worker = start({ limitSeconds: 20, limitMegabytes: 512 });
    const first = await worker.run(job('a'));
    expect(await worker.run(job('b'))).toEqual(first);
    expect(worker.isIdle).toBe(true);
  });

  it('is ended when a job takes too long', async () => {
    const worker = start({ limitSeconds: 1, limitMegabytes: 512 });
    await expect(worker.run(job('hang'))).rejects.toMatchObject({ why: 'time' });
    expect(worker.isGone).toBe(true);
  });

  it('is ended when a job takes too much memory, typed arrays included', async () => {
    const worker = start({ limitSeconds: 20, limitMegabytes: 256 });
    await expect(worker.run(job('hoard'))).rejects.toMatchObject({ why: 'memory' });
    expect(worker.isGone).toBe(true);
  });

  it('that dies fails its job', async () => {
    const worker = start({ limitSeconds: 20, limitMegabytes: 512 });
    await expect(worker.run(job('die'))).rejects.toMatchObject({ why: 'died' });
  });

  it('whose job throws goes on with the next', async () => {
    const worker = start({ limitSeconds: 20, limitMegabytes: 512 });
    await expect(worker.run(job('throw'))).rejects.toThrow('broken inside');
    expect(await worker.run(job('a'))).toMatchObject({ kind: 'refusedFile' });
  });
});
