import { pino, type Logger } from 'pino';

/** The token under which the log is injected. */
export const LOG = Symbol('log');
export type Log = Pick<Logger, 'debug' | 'info' | 'warn' | 'error'>;

/** The structured log. Cookies, links and bodies are never in it. */
export const makeLog = (level: string): Logger =>
  pino({
    level,
    base: null,
    serializers: {
      req: (request: { method: string; url: string; id: string }) => ({
        method: request.method,
        path: withoutSecrets(request.url),
        requestId: request.id,
      }),
    },
  });

/** A path as it may be logged: without its query, and without the token of a link. */
const withoutSecrets = (url: string): string =>
  (url.split('?')[0] ?? '').replace(
    /^(\/sign-in|\/enrol|\/invitations|\/api\/invitations|\/api\/enrolment-codes)\/[^/]+/,
    '$1/…',
  );
