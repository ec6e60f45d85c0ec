import { existsSync } from 'node:fs';

/** The program of a worker process. Node runs built files only, so from source it is the one in `dist/`. */
export function workerEntry(): URL {
  const isBuilt = import.meta.url.endsWith('.js');
  const entry = new URL(isBuilt ? './worker-process.js' : '../../dist/api/workers/worker-process.js', import.meta.url);
  if (!existsSync(entry)) throw new Error('The worker process is not built; run: npm run build');
  return entry;
}
