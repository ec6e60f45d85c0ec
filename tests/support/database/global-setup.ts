import { chmodSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { startCluster } from '../../../launch/postgres/cluster.ts';

const held = { users: 0, stop: async (): Promise<void> => {} };

async function start(): Promise<void> {
  if (process.env['HEDDLE_TEST_DATABASE_URL'] !== undefined) return;
  const folder = mkdtempSync(join(tmpdir(), 'heddle-test-'));
  chmodSync(folder, 0o755); // as root, the database's own user must pass through
  const cluster = await startCluster({ folder: join(folder, 'postgres'), isDurable: false });
  process.env['HEDDLE_TEST_DATABASE_URL'] = cluster.url('postgres');
  held.stop = async () => {
    delete process.env['HEDDLE_TEST_DATABASE_URL'];
    await cluster.stop();
    rmSync(folder, { recursive: true, force: true });
  };
}

/** One private cluster a run, shared by the projects that need a database; none where HEDDLE_TEST_DATABASE_URL names one. */
export async function setup(): Promise<() => Promise<void>> {
  held.users += 1;
  if (held.users === 1) await start();
  return async () => {
    held.users -= 1;
    if (held.users === 0) await held.stop();
  };
}
