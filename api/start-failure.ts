import { isDatabaseAway } from './errors/database-away.ts';
import { ConfigError, type Config } from './config/config.ts';

const DATABASE_SILENT = 'The database does not answer. Check DATABASE_URL, and that the database runs.';

const sentences: Readonly<Record<string, (config: Config) => string>> = {
  EADDRINUSE: (config) => `Port ${config.port} is in use. Stop what uses it, or set PORT to another one.`,
  EACCES: (config) => `Port ${config.port} may not be opened by this user. Set PORT to one above 1023.`,
  EADDRNOTAVAIL: (config) => `This machine has no address ${config.host}. Set HOST to one that it has.`,
  ECONNREFUSED: () => DATABASE_SILENT,
  ENOTFOUND: () => 'The host named in DATABASE_URL is not known.',
  ETIMEDOUT: () => 'The database does not answer in time. Check DATABASE_URL.',
  '28P01': () => 'The database refuses the user or password in DATABASE_URL.',
  '28000': () => 'The database refuses the user in DATABASE_URL.',
  '3D000': () => 'The database named in DATABASE_URL does not exist.',
};

function codeOf(error: unknown): string {
  const code = (error as { code?: unknown } | null)?.code;
  return typeof code === 'string' ? code : '';
}

/** The one sentence that tells a person why the API did not start; null where the cause is a bug of ours. */
export function plainStartFailure(error: unknown, config: Config | null): string | null {
  if (error instanceof ConfigError) return error.message;
  const inner: unknown = error instanceof AggregateError ? error.errors[0] : error;
  const away = isDatabaseAway(error) ? () => DATABASE_SILENT : undefined;
  const sentence = sentences[codeOf(error)] ?? sentences[codeOf(inner)] ?? away;
  return sentence === undefined || config === null ? null : sentence(config);
}
