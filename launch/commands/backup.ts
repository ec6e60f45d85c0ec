import { resolve } from 'node:path';
import { writeBackup } from '../backup/write-backup.ts';
import { StartFailure } from '../failure.ts';
import { startSettings } from '../settings.ts';
import { runCommand } from './run-command.ts';
import { withDatabase } from './with-database.ts';

await runCommand(async () => {
  const [target] = process.argv.slice(2);
  if (target === undefined) throw new StartFailure('Say where to: npm run backup -- FILE.zip');
  const path = resolve(target);
  const manifest = await withDatabase(startSettings(process.env), ({ url }) => writeBackup(url, path, new Date()));
  const rows = manifest.tables.reduce((sum, table) => sum + table.rows, 0);
  console.log(`Wrote ${rows} records of ${manifest.tables.length} tables to ${path}.`);
});
