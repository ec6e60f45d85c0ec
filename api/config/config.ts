import { availableParallelism } from 'node:os';
import path from 'node:path';
import { z } from 'zod';

const port = z.coerce.number().int().min(0).max(65_535);
const flag = z.enum(['true', 'false']).transform((text) => text === 'true');
const origins = z
  .string()
  .transform((text) => text.split(',').map((origin) => origin.trim().replace(/\/$/, '')))
  .pipe(z.array(z.url({ protocol: /^https?$/ })).min(1));

const environment = z.object({
  PORT: port.default(4710),
  HOST: z.string().min(1).default('127.0.0.1'),
  DATABASE_URL: z.string().regex(/^postgres(ql)?:\/\//, 'it must begin with postgres://'),
  HEDDLE_ORIGIN: origins.optional(),
  HEDDLE_SECRET: z.string().min(32),
  HEDDLE_WEB_DIR: z.string().min(1).default('dist/web'),
  HEDDLE_TRUST_PROXY: flag.default(false),
  HEDDLE_SIGN_INS_PER_MINUTE: z.coerce.number().int().min(1).default(10),
  HEDDLE_READING_SECONDS: z.coerce.number().min(1).max(600).default(20),
  HEDDLE_READING_MEGABYTES: z.coerce.number().int().min(128).default(1024),
  HEDDLE_READERS: z.coerce.number().int().min(1).max(16).default(2),
  HEDDLE_SOUND_SECONDS: z.coerce.number().min(1).max(3600).default(600),
  HEDDLE_SOUND_RENDERERS: z.coerce.number().int().min(1).max(16).default(1),
  HEDDLE_LOG_LEVEL: z.enum(['trace', 'debug', 'info', 'warn', 'error', 'fatal', 'silent']).default('info'),
  REDIS_URL: z.url({ protocol: /^rediss?$/ }).optional(),
});

/** Everything that the environment decides, read once at the start. */
export interface Config {
  readonly port: number;
  readonly host: string;
  readonly databaseUrl: string;
  /** The addresses under which people reach Heddle; links are written with the first. */
  readonly origins: readonly [string, ...string[]];
  readonly secret: string;
  readonly webFolder: string;
  readonly trustsProxy: boolean;
  readonly signInsPerMinute: number;
  readonly reading: { readonly processes: number; readonly limitSeconds: number; readonly limitMegabytes: number };
  readonly sound: { readonly processes: number; readonly limitSeconds: number; readonly limitMegabytes: number };
  readonly logLevel: string;
  readonly redisUrl: string | null;
}

/** Says in one sentence which variables of the environment are wrong. */
export class ConfigError extends Error {
  override readonly name = 'ConfigError';
}

const localOrigins = (portNumber: number): [string, ...string[]] => [
  `http://localhost:${portNumber}`,
  `http://127.0.0.1:${portNumber}`,
];

/** The configuration that `variables` describe. **Errors** throws `ConfigError`, naming every variable that is wrong. */
export function readConfig(variables: Readonly<Record<string, string | undefined>>): Config {
  const given = Object.fromEntries(Object.entries(variables).filter(([, text]) => text !== ''));
  const parsed = environment.safeParse(given);
  if (!parsed.success) {
    const wrong = parsed.error.issues.map((issue) => `${issue.path.join('.')}: ${issue.message}`);
    throw new ConfigError(`The environment is not right: ${wrong.join('; ')}`);
  }
  const values = parsed.data;
  const [first, ...others] = values.HEDDLE_ORIGIN ?? [];
  return Object.freeze({
    port: values.PORT,
    host: values.HOST,
    databaseUrl: values.DATABASE_URL,
    origins: first === undefined ? localOrigins(values.PORT) : ([first, ...others] as const),
    secret: values.HEDDLE_SECRET,
    webFolder: path.resolve(values.HEDDLE_WEB_DIR),
    trustsProxy: values.HEDDLE_TRUST_PROXY,
    signInsPerMinute: values.HEDDLE_SIGN_INS_PER_MINUTE,
    reading: {
      processes: values.HEDDLE_READERS,
      limitSeconds: values.HEDDLE_READING_SECONDS,
      limitMegabytes: values.HEDDLE_READING_MEGABYTES,
    },
    sound: {
      processes: Math.min(values.HEDDLE_SOUND_RENDERERS, availableParallelism()),
      limitSeconds: values.HEDDLE_SOUND_SECONDS,
      limitMegabytes: values.HEDDLE_READING_MEGABYTES,
    },
    logLevel: values.HEDDLE_LOG_LEVEL,
    redisUrl: values.REDIS_URL ?? null,
  });
}
