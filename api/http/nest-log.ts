import type { LoggerService } from '@nestjs/common';
import type { Logger } from 'pino';

/** Lets the framework write into our log. */
export const nestLog = (log: Logger): LoggerService => ({
  log: (message: unknown, context?: unknown) => log.debug({ from: context }, String(message)),
  warn: (message: unknown, context?: unknown) => log.warn({ from: context }, String(message)),
  error: (message: unknown, stack?: unknown, context?: unknown) => log.error({ from: context, stack }, String(message)),
  debug: (message: unknown, context?: unknown) => log.debug({ from: context }, String(message)),
});
