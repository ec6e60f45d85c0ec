import { Worker } from '../../api/workers/worker.ts';
import type { Reader, Verdict } from '../../measure/hostile/run.ts';

const entry = new URL('./hostile-reader.mjs', import.meta.url);
/** The API's time by the clock; five seconds of processor time are asked for besides. */
const limits = { limitSeconds: 20, limitMegabytes: 512 };

/** A reading process under the API's own watch. */
export function hostileReader(): Reader {
  let worker = new Worker(entry, limits);
  return {
    read: ({ bytes, fileName }) => {
      if (worker.isGone) worker = new Worker(entry, limits);
      const numbers = { firstNoteNumber: 1, firstBarNumber: 1 };
      const wish = { kind: 'asBefore', before: null } as const;
      const job = { kind: 'read', bytes, fileName, ...numbers, wish, known: null } as const;
      return worker.run(job) as unknown as Promise<Verdict>;
    },
    stop: () => worker.stop(),
  };
}
