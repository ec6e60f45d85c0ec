// Broken files by the hundred thousand, read under the API's own watch. HEDDLE_HOSTILE_FILES sets another number.
import { availableParallelism } from 'node:os';
import { Worker } from '../../dist/api/workers/worker.js';
import { readHostileFiles } from '../../dist/measure/hostile/run.js';
import { row, shown } from './measure.js';

const entry = new URL('../../tests/support/hostile-reader.mjs', import.meta.url);
const limits = { limitSeconds: 20, limitMegabytes: 512 };
const count = Number(process.env.HEDDLE_HOSTILE_FILES ?? 100_000);
const mostShown = 20;

function reader() {
  let worker = new Worker(entry, limits);
  return {
    read: ({ bytes, fileName }) => {
      if (worker.isGone) worker = new Worker(entry, limits);
      const wish = { kind: 'asBefore', before: null };
      return worker.run({ kind: 'read', bytes, fileName, firstNoteNumber: 1, firstBarNumber: 1, wish, known: null });
    },
    stop: () => worker.stop(),
  };
}

/** Every broken file answered, none of them slow or greedy. The test reads the first two thousand of these. */
export async function bench() {
  const readers = Array.from({ length: Math.max(1, Math.min(4, availableParallelism())) }, reader);
  const outcome = await readHostileFiles(0, count, readers);
  const { failures, readCount, refusedCount, slowestSeconds, mostMegabytes } = outcome;
  const what = `${count.toLocaleString('en')} broken files: `;
  return [
    row(
      `${what}crashed, hung or answered wrongly`,
      '0',
      String(failures.length),
      failures.length === 0,
      `${readCount} read, ${refusedCount} refused`,
    ),
    row(
      `${what}slowest answer, processor time`,
      '≤ 5 s',
      `${shown(slowestSeconds)} s`,
      slowestSeconds <= 5,
      outcome.slowest,
    ),
    row(`${what}most memory of a process`, '≤ 512 MB', `${shown(mostMegabytes)} MB`, mostMegabytes <= 512),
    ...failures.slice(0, mostShown),
  ];
}
