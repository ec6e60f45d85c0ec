import type { IncomingMessage } from 'node:http';
import { DomainError } from '../errors/domain-error.ts';

const changing: ReadonlySet<string> = new Set(['POST', 'PUT', 'PATCH', 'DELETE']);

/** Whether a request comes from a page of ours, or from no page at all. */
export function isOwnOrigin(headers: IncomingMessage['headers'], origins: readonly string[]): boolean {
  if (headers.origin !== undefined) return origins.includes(headers.origin);
  const site = headers['sec-fetch-site'];
  return site === undefined || site === 'same-origin' || site === 'none';
}

/** Refuses a request that would change something and comes from another site's page. **Errors** `origin-refused`. */
export function refuseOtherOrigins(
  method: string,
  headers: IncomingMessage['headers'],
  origins: readonly string[],
): void {
  if (changing.has(method) && !isOwnOrigin(headers, origins)) {
    throw new DomainError('origin-refused', 'Requests that change something are taken from our own pages only.');
  }
}
