import { Catch, type ArgumentsHost, type ExceptionFilter } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { problemOf } from './problem-of.ts';

/** The one place where an error becomes an answer over HTTP. */
@Catch()
export class ProblemFilter implements ExceptionFilter {
  catch(error: unknown, host: ArgumentsHost): void {
    const http = host.switchToHttp();
    const request = http.getRequest<FastifyRequest>();
    const body = problemOf(error, request.id);
    if (body.code === 'unavailable') request.log.warn({ err: error, requestId: request.id }, 'database away');
    if (body.code === 'internal') request.log.error({ err: error, requestId: request.id }, 'request failed');
    void http
      .getResponse<FastifyReply>()
      .status(body.status)
      .header('content-type', 'application/problem+json')
      .header('cache-control', 'no-store')
      .send(JSON.stringify(body));
  }
}
