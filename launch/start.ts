import { createApp, deskOf, plainStartFailure, readConfig, SystemClock, type Config } from '../api/index.ts';
import { loadDemo } from '../seed/load-demo.ts';
import { runCommand } from './commands/run-command.ts';
import { holdData } from './data-lock.ts';
import { embeddedDatabase, outsideDatabase, type Database } from './database.ts';
import { StartFailure } from './failure.ts';
import { refuseTakenPort } from './port.ts';
import { keptSecret } from './secret.ts';
import { startSettings, type StartSettings } from './settings.ts';

/** What has been started, to be ended in the opposite order. */
const started: (() => unknown)[] = [];

async function endAll(): Promise<void> {
  for (const end of started.splice(0).reverse()) await end();
}

/** Links that let anybody in are printed only where nobody else can reach this machine. */
const isLoopback = (host: string): boolean => host === 'localhost' || host === '::1' || host.startsWith('127.');

const browsable = ({ host, port }: StartSettings): string =>
  `http://${host === '127.0.0.1' || host === '0.0.0.0' || host === '::' ? 'localhost' : host}:${port}`;

function configOf(settings: StartSettings, database: Database): Config {
  const defaults = { HEDDLE_LOG_LEVEL: 'warn', HEDDLE_SECRET: keptSecret(settings.dataFolder) };
  const given = Object.fromEntries(Object.entries(process.env).filter(([, text]) => text !== ''));
  return readConfig({
    ...defaults,
    ...given,
    PORT: String(settings.port),
    HOST: settings.host,
    DATABASE_URL: database.url,
  });
}

async function openDatabase(settings: StartSettings): Promise<Database> {
  if (settings.databaseUrl !== null) return outsideDatabase(settings.databaseUrl);
  started.push(holdData(settings.dataFolder, browsable(settings)));
  const database = await embeddedDatabase(settings.dataFolder);
  started.push(() => database.stop());
  return database;
}

async function serve(settings: StartSettings, database: Database): Promise<string[]> {
  const config = configOf(settings, database);
  try {
    const app = await createApp(config);
    started.push(() => app.close());
    await app.listen(config.port, config.host);
    const invitation = 'Sign-in links are made with: npm run sign-in-link -- ADDRESS --name "NAME"';
    if (!database.isEmbedded) return [invitation];
    const desk = deskOf(app);
    const { teacher, student } = await loadDemo(desk, new SystemClock());
    if (!isLoopback(settings.host)) return [invitation];
    return [
      `  as the demo teacher: ${await desk.people.issueSignInLink(teacher.email)}`,
      `  as the demo student: ${await desk.people.issueSignInLink(student.email)}`,
      'The links work once and last 15 minutes. Ctrl-C stops Heddle and its database.',
    ];
  } catch (error) {
    const sentence = plainStartFailure(error, config);
    throw sentence === null ? error : new StartFailure(sentence);
  }
}

async function start(): Promise<void> {
  const settings = startSettings(process.env);
  await refuseTakenPort(settings.host, settings.port);
  const database = await openDatabase(settings);
  if (hasToEnd()) return;
  const words = await serve(settings, database);
  if (hasToEnd()) return;
  console.log([`Heddle is at ${browsable(settings)}`, ...words].join('\n'));
}

/** A start that is under way goes on to its next step, sees this, and ends; so nothing is left behind half started. */
let isToEnd = false;
const hasToEnd = (): boolean => isToEnd;
let starting: Promise<void> = Promise.resolve();

function stop(): void {
  isToEnd = true;
  void starting.then(endAll).then(
    () => process.exit(0),
    (error: unknown) => {
      console.error(error);
      process.exit(1);
    },
  );
}

for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.once(signal, stop);

// npm does not hand every signal on; when the npm that started this process is gone, so is the wish to run.
const starter = process.ppid;
if (process.env['npm_lifecycle_event'] !== undefined) {
  const watch = setInterval(() => {
    if (process.ppid === starter) return;
    clearInterval(watch);
    stop();
  }, 500);
  watch.unref();
}

await runCommand(async () => {
  try {
    const begun = start();
    starting = begun.catch(() => undefined); // told below
    await begun;
  } catch (error) {
    await endAll();
    throw error;
  }
});
