import helmet from '@fastify/helmet';
import type { FastifyInstance } from 'fastify';

/** Everything from ourselves; no script written into a page. Engraved scores carry style attributes, hence the one exception. */
const contentSecurityPolicy = {
  useDefaults: false,
  directives: {
    defaultSrc: ["'self'"],
    scriptSrc: ["'self'"],
    workerSrc: ["'self'", 'blob:'],
    styleSrc: ["'self'", "'unsafe-inline'"],
    imgSrc: ["'self'", 'data:', 'blob:'],
    fontSrc: ["'self'", 'data:'],
    mediaSrc: ["'self'", 'blob:'],
    connectSrc: ["'self'"],
    objectSrc: ["'none'"],
    baseUri: ["'none'"],
    formAction: ["'self'"],
    frameAncestors: ["'none'"],
  },
};

/**
 * What the worker that makes sound files is served with: encoders are WebAssembly, and they run in workers of their own,
 * which take their policy from it. Nothing else may compile such code.
 */
export const soundWorkerPolicy =
  "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self' blob:; object-src 'none'; base-uri 'none'";

/** Sets the headers that keep browsers to what we serve. */
export async function setSecurityHeaders(instance: FastifyInstance, isHttps: boolean): Promise<void> {
  await instance.register(helmet, {
    contentSecurityPolicy,
    strictTransportSecurity: isHttps,
    referrerPolicy: { policy: 'no-referrer' },
    crossOriginEmbedderPolicy: false,
  });
}
