/** Connections that cannot be made or that broke, by the system's and Postgres' own codes. **Source** PostgreSQL 18, appendix A, classes 08 and 57P. */
const awayCodes = /^(ECONNREFUSED|ECONNRESET|EPIPE|ETIMEDOUT|EHOSTUNREACH|ENETUNREACH|08\w{3}|57P0[1235])$/;

/** What the drivers say without a code: of a connection that broke, and of a transaction whose own broke. */
const awayWords =
  /^(Connection terminated|timeout exceeded when trying to connect|Client has encountered a connection error|Client was closed and is not queryable|Query runner already released|Database connection provided by a query runner was already released)/;

interface Known {
  readonly code?: unknown;
  readonly message?: unknown;
  readonly driverError?: unknown;
  readonly cause?: unknown;
}

/** Whether an error, or what caused it, is that the database is out of reach: whatever was under way may or may not have been written. */
export function isDatabaseAway(error: unknown): boolean {
  if (typeof error !== 'object' || error === null) return false;
  if (error instanceof AggregateError && error.errors.some(isDatabaseAway)) return true;
  const { code, message, driverError, cause }: Known = error;
  if (typeof code === 'string' && awayCodes.test(code)) return true;
  if (typeof message === 'string' && awayWords.test(message)) return true;
  return (driverError !== error && isDatabaseAway(driverError)) || (cause !== error && isDatabaseAway(cause));
}
