import multipart from '@fastify/multipart';
import type { FastifyInstance } from 'fastify';

const KILOBYTE = 1024;
export const SMALL_BODY_BYTES = 256 * KILOBYTE;
const LESSON_BYTES = 2048 * KILOBYTE;
/** A whole proposal of 50,000 notes. */
const OPERATION_BYTES = 16_384 * KILOBYTE;
/** **Source** our own limit: 10 MB compressed. */
const SCORE_BYTES = 10_000_000;

const limits: readonly (readonly [RegExp, number])[] = [
  [/^\/api\/songs\/:\w+\/score$/, SCORE_BYTES + 64 * KILOBYTE],
  [/^\/api\/songs\/:\w+\/split\/operations$/, OPERATION_BYTES],
  [/^\/api\/(lessons\/:\w+|songs\/:\w+\/lessons)$/, LESSON_BYTES],
];

/** Gives each route its own limit on bodies, and lets whole files in where they belong. */
export async function setBodyLimits(instance: FastifyInstance): Promise<void> {
  instance.addHook('onRoute', (route) => {
    const limit = limits.find(([pattern]) => pattern.test(route.url));
    if (limit !== undefined) route.bodyLimit = limit[1];
  });
  await instance.register(multipart, { limits: { fileSize: SCORE_BYTES, files: 1, fields: 4, parts: 5 } });
  const asBytes = { parseAs: 'buffer', bodyLimit: SCORE_BYTES } as const;
  instance.addContentTypeParser(/^application\/(octet-stream|zip|xml|vnd\.recordare\..+)/, asBytes, (_, body, done) =>
    done(null, body),
  );
}
