import { resolve } from 'node:path';
import { migrateDatabase } from '../../api/index.ts';
import { readArchive } from '../backup/archive.ts';
import { refuseUnfit, restoreBackup } from '../backup/restore-backup.ts';
import { StartFailure } from '../failure.ts';
import { startSettings } from '../settings.ts';
import { runCommand } from './run-command.ts';
import { withDatabase } from './with-database.ts';

await runCommand(async () => {
  const [source] = process.argv.slice(2);
  if (source === undefined) throw new StartFailure('Say from where: npm run restore -- FILE.zip');
  const archive = readArchive(resolve(source));
  const manifest = await withDatabase(startSettings(process.env), async ({ url }) => {
    await refuseUnfit(url, archive);
    await migrateDatabase(url);
    return restoreBackup(url, archive);
  });
  const rows = manifest.tables.reduce((sum, table) => sum + table.rows, 0);
  console.log(`Restored ${rows} records of ${manifest.tables.length} tables, as they were at ${manifest.writtenAt}.`);
});
