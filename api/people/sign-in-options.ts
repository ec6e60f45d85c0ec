import { hash, verify } from '@node-rs/argon2';
import { betterAuth } from 'better-auth';
import { magicLink } from 'better-auth/plugins';
import type { Pool } from 'pg';
import type { Config } from '../config/config.ts';

/** The header in which the API itself tells the library the address of the caller; a caller's own is thrown away. */
export const ADDRESS_HEADER = 'x-heddle-client-address';
export const SIGN_IN_PATH = '/api/auth';
const LINK_MINUTES = 15;

/** OWASP Password Storage Cheat Sheet, Argon2id: 19 MiB, two passes, one lane. */
const argon2id = { algorithm: 2, memoryCost: 19_456, timeCost: 2, parallelism: 1 } as const;

export const hashPassword = (password: string): Promise<string> => hash(password, argon2id);
const verifyPassword = (given: { hash: string; password: string }): Promise<boolean> =>
  verify(given.hash, given.password);

const timestamps = { createdAt: 'created_at', updatedAt: 'updated_at' };
const tables = {
  user: { modelName: 'person', fields: { ...timestamps, emailVerified: 'email_verified' } },
  session: {
    modelName: 'sign_in_session',
    fields: {
      ...timestamps,
      userId: 'person_id',
      expiresAt: 'expires_at',
      ipAddress: 'ip_address',
      userAgent: 'user_agent',
    },
    expiresIn: 60 * 60 * 24 * 30,
    updateAge: 60 * 60 * 24,
  },
  account: {
    modelName: 'sign_in_account',
    fields: {
      ...timestamps,
      userId: 'person_id',
      accountId: 'account_id',
      providerId: 'provider_id',
      accessToken: 'access_token',
      refreshToken: 'refresh_token',
      idToken: 'id_token',
      accessTokenExpiresAt: 'access_token_expires_at',
      refreshTokenExpiresAt: 'refresh_token_expires_at',
    },
  },
  verification: { modelName: 'sign_in_verification', fields: { ...timestamps, expiresAt: 'expires_at' } },
};

interface Parts {
  readonly pool: Pool;
  readonly config: Config;
  readonly newId: () => string;
  /** Is told each one-time token as it is made. */
  readonly onLinkToken: (token: string) => void;
  readonly log: (level: 'debug' | 'info' | 'success' | 'warn' | 'error', message: string) => void;
}

/** The library would report on itself where these variables say so, whatever its options say; they are not ours to leave on. */
export function silenceReports(variables: NodeJS.ProcessEnv): void {
  delete variables['BETTER_AUTH_TELEMETRY'];
  delete variables['BETTER_AUTH_TELEMETRY_ENDPOINT'];
}

/** The sign-in library on our tables: no sign-up of its own, Argon2id, one-time links, no telemetry. */

export function signInLibrary({ pool, config, newId, onLinkToken, log }: Parts) {
  const [origin] = config.origins;
  return betterAuth({
    ...tables,
    appName: 'Heddle',
    baseURL: origin,
    basePath: SIGN_IN_PATH,
    secret: config.secret,
    trustedOrigins: [...config.origins],
    database: pool,
    telemetry: { enabled: false },
    logger: { log: (level, message) => log(level, message) },
    emailAndPassword: {
      enabled: true,
      disableSignUp: true,
      minPasswordLength: 10,
      maxPasswordLength: 128,
      password: { hash: hashPassword, verify: verifyPassword },
    },
    plugins: [
      magicLink({
        expiresIn: LINK_MINUTES * 60,
        storeToken: 'hashed',
        disableSignUp: true,
        sendMagicLink: ({ token }) => onLinkToken(token),
      }),
    ],
    rateLimit: {
      enabled: true,
      storage: 'memory',
      window: 60,
      max: 120,
      customRules: { '/sign-in/email': { window: 60, max: config.signInsPerMinute } },
    },
    advanced: {
      cookiePrefix: 'heddle',
      useSecureCookies: origin.startsWith('https:'),
      defaultCookieAttributes: { httpOnly: true, sameSite: 'lax' },
      ipAddress: { ipAddressHeaders: [ADDRESS_HEADER] },
      database: { generateId: () => newId() },
    },
  });
}

/** The sign-in library as it stands on our tables. */
export type SignInLibrary = ReturnType<typeof signInLibrary>;
