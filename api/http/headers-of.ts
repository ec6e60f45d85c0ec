import type { FastifyRequest } from 'fastify';
import { ADDRESS_HEADER } from '../people/sign-in-options.ts';

/** The headers of a request for the sign-in library, with the address that we ourselves saw. */
export function headersOf(request: FastifyRequest): Headers {
  const headers = new Headers();
  for (const [name, value] of Object.entries(request.headers)) {
    if (value !== undefined) headers.set(name, Array.isArray(value) ? value.join(', ') : value);
  }
  headers.delete('content-length');
  headers.set(ADDRESS_HEADER, request.ip);
  return headers;
}
