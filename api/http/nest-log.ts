import type { LoggerService } from '@nestjs/common';
import type { Logger } from 'pino';

/** Lets the framework write into our log. What fails before the start is over is told by whoever started, in one sentence; its traces are for debugging. */
export class NestLog implements LoggerService {
  hasStarted = false;

  constructor(private readonly target: Logger) {}

  log(message: unknown, context?: unknown): void {
    this.target.debug({ from: context }, String(message));
  }

  warn(message: unknown, context?: unknown): void {
    this.target.warn({ from: context }, String(message));
  }

  error(message: unknown, stack?: unknown, context?: unknown): void {
    this.target[this.hasStarted ? 'error' : 'debug']({ from: context, stack }, String(message));
  }
}
