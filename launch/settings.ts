import { resolve } from 'node:path';
import { z } from 'zod';
import { StartFailure } from './failure.ts';

const environment = z.object({
  PORT: z.coerce.number().int().min(1).max(65_535).default(4710),
  HOST: z.string().min(1).default('127.0.0.1'),
  HEDDLE_DATA: z.string().min(1).default('./data'),
  DATABASE_URL: z
    .string()
    .regex(/^postgres(ql)?:\/\//, 'must begin with postgres://')
    .optional(),
});

/** What a person may set about a start; everything has a default. */
export interface StartSettings {
  readonly host: string;
  readonly port: number;
  readonly dataFolder: string;
  /** A Postgres of one's own, or null for the embedded one. */
  readonly databaseUrl: string | null;
}

/** Reads the settings of a start. **Errors** `StartFailure` that names the variable. */
export function startSettings(variables: Readonly<Record<string, string | undefined>>): StartSettings {
  const given = Object.fromEntries(Object.entries(variables).filter(([, text]) => text !== ''));
  const parsed = environment.safeParse(given);
  if (!parsed.success) {
    const [issue] = parsed.error.issues;
    throw new StartFailure(`${String(issue?.path[0])} is not usable: ${issue?.message ?? 'it cannot be read'}.`);
  }
  const { HOST, PORT, HEDDLE_DATA, DATABASE_URL } = parsed.data;
  return { host: HOST, port: PORT, dataFolder: resolve(HEDDLE_DATA), databaseUrl: DATABASE_URL ?? null };
}
