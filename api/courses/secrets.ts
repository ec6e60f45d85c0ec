import { createHash } from 'node:crypto';

const TOKEN_BYTES = 24;
const CODE_LETTERS = 12;
/** Crockford's base 32: no I, L, O, U. */
const letters = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';

type RandomBytes = (count: number) => Uint8Array;

/** The unguessable end of a link: 192 bits. */
export const newToken = (randomBytes: RandomBytes): string =>
  Buffer.from(randomBytes(TOKEN_BYTES)).toString('base64url');

/** A code of 60 bits that can be read out: `7KQ2-M4XA-9TRB`. */
export function newCode(randomBytes: RandomBytes): string {
  const picked = Array.from(randomBytes(CODE_LETTERS), (byte) => letters.charAt(byte & 31));
  return [0, 4, 8].map((start) => picked.slice(start, start + 4).join('')).join('-');
}

/** The code as it was given out, whatever the case and dashes that somebody typed. */
export const plainCode = (typed: string): string =>
  typed
    .toUpperCase()
    .replace(/[^0-9A-Z]/g, '')
    .replace(/O/g, '0')
    .replace(/[IL]/g, '1');

/** What is kept of a token or code. */
export const hashOfSecret = (secret: string): string => createHash('sha256').update(secret).digest('hex');
