import type { FastifyReply } from 'fastify';

/** Adds session cookies to an answer. */
export function sendCookies(reply: FastifyReply, cookies: readonly string[]): void {
  for (const cookie of cookies) void reply.header('set-cookie', cookie);
}
