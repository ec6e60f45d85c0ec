import { DomainError } from '../errors/domain-error.ts';

/** The ETag of a numbered version. */
export const etagOfVersion = (version: number): string => `"${version}"`;

/** The version that an If-Match names; null without one or for `*`. **Errors** `changed-meanwhile` for an ETag that was never ours. */
export function versionSeen(ifMatch: string | undefined): number | null {
  if (ifMatch === undefined || ifMatch.trim() === '*') return null;
  const number = /^(?:W\/)?"(\d{1,9})"$/.exec(ifMatch.trim())?.[1];
  if (number === undefined)
    throw new DomainError('changed-meanwhile', 'The version named in If-Match is not one of this document.');
  return Number(number);
}

/** The version that an If-Match names. **Errors** `precondition-missing` without one. */
export function versionSeenOrRefuse(ifMatch: string | undefined): number {
  if (ifMatch === undefined)
    throw new DomainError('precondition-missing', 'Say which version you saw, by the header If-Match.');
  const version = versionSeen(ifMatch);
  if (version === null)
    throw new DomainError('precondition-missing', 'Say which version you saw; If-Match: * is not enough here.');
  return version;
}
