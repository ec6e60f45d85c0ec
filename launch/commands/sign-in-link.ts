import { parseArgs } from 'node:util';
import { createApp, deskOf, readConfig, type Config } from '../../api/index.ts';
import { StartFailure } from '../failure.ts';
import { keptSecret } from '../secret.ts';
import { startSettings } from '../settings.ts';
import { runCommand } from './run-command.ts';
import { withDatabase, type DatabaseAtHand } from './with-database.ts';

/** The link leads to the Heddle that runs, unless the environment names another origin. */
function configOf({ url, runningAt }: DatabaseAtHand, dataFolder: string): Config {
  const origin = runningAt === null ? {} : { HEDDLE_ORIGIN: runningAt };
  const given = Object.fromEntries(Object.entries(process.env).filter(([, text]) => text !== ''));
  const defaults = { HEDDLE_SECRET: keptSecret(dataFolder), ...origin };
  return readConfig({ ...defaults, ...given, HEDDLE_LOG_LEVEL: 'error', DATABASE_URL: url });
}

await runCommand(async () => {
  const { values, positionals } = parseArgs({ allowPositionals: true, options: { name: { type: 'string' } } });
  const [address] = positionals;
  if (address === undefined) throw new StartFailure('Say whose: npm run sign-in-link -- ADDRESS [--name "NAME"]');
  const settings = startSettings(process.env);
  const link = await withDatabase(settings, async (database) => {
    const app = await createApp(configOf(database, settings.dataFolder));
    try {
      const desk = deskOf(app);
      if (values.name !== undefined) await desk.personNamed(values.name, address);
      if ((await desk.people.withEmail(address)) === null) {
        throw new StartFailure(`Nobody here has the address ${address}. Add --name "NAME" to make that person.`);
      }
      return await desk.people.issueSignInLink(address);
    } finally {
      await app.close();
    }
  });
  console.log(`${link}\nIt works once and lasts 15 minutes.`);
});
