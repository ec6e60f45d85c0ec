import { createApp } from './create-app.ts';
import { ConfigError, readConfig, type Config } from './config/config.ts';

const sentences: Readonly<Record<string, (config: Config) => string>> = {
  EADDRINUSE: (config) => `Port ${config.port} is in use. Stop what uses it, or set PORT to another one.`,
  EACCES: (config) => `Port ${config.port} may not be opened by this user. Set PORT to one above 1023.`,
  ECONNREFUSED: () => 'The database does not answer. Check DATABASE_URL, and that the database runs.',
  ENOTFOUND: () => 'The host named in DATABASE_URL is not known.',
  ETIMEDOUT: () => 'The database does not answer in time. Check DATABASE_URL.',
  '28P01': () => 'The database refuses the user or password in DATABASE_URL.',
  '28000': () => 'The database refuses the user in DATABASE_URL.',
  '3D000': () => 'The database named in DATABASE_URL does not exist.',
};

const codeOf = (error: unknown): string => String((error as { code?: unknown } | null)?.code ?? '');

function explain(error: unknown, config: Config | null): string {
  if (error instanceof ConfigError) return error.message;
  const inner = error instanceof AggregateError ? (error.errors[0] as unknown) : error;
  const sentence = sentences[codeOf(error)] ?? sentences[codeOf(inner)];
  if (sentence !== undefined && config !== null) return sentence(config);
  return `Heddle could not start: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`;
}

async function start(): Promise<void> {
  let config: Config | null = null;
  try {
    config = readConfig(process.env);
    const app = await createApp(config);
    await app.listen(config.port, config.host);
    process.stdout.write(`Heddle listens on ${await app.getUrl()}\n`);
  } catch (error) {
    process.stderr.write(`${explain(error, config)}\n`);
    process.exit(1);
  }
}

await start();
