import 'reflect-metadata';
import fastifyStatic from '@fastify/static';
import { NestFactory } from '@nestjs/core';
import { FastifyAdapter, type NestFastifyApplication } from '@nestjs/platform-fastify';
import { LogController, type FastifyInstance } from 'fastify';
import { AppModule } from './app.module.ts';
import type { Clock } from './clock/clock.ts';
import { SystemClock } from './clock/system-clock.ts';
import type { Config } from './config/config.ts';
import { serveApiDocument } from './http/api-document.ts';
import { setBodyLimits, SMALL_BODY_BYTES } from './http/body-limits.ts';
import { makeLog } from './http/log.ts';
import { NestLog } from './http/nest-log.ts';
import { refuseOtherOrigins } from './http/origin.ts';
import { setSecurityHeaders } from './http/security-headers.ts';
import { SocketAdapter } from './http/socket-adapter.ts';

/** What a test may put in the place of the machine's own. */
export interface AppReplacements {
  readonly clock?: Clock;
}

/** The whole API, ready to listen, its database migrated. **Errors** throws where the database is out of reach. */
export async function createApp(
  config: Config,
  { clock = new SystemClock() }: AppReplacements = {},
): Promise<NestFastifyApplication> {
  const log = makeLog(config.logLevel);
  const frameworkLog = new NestLog(log);
  const adapter = new FastifyAdapter({
    bodyLimit: SMALL_BODY_BYTES,
    trustProxy: config.trustsProxy,
    genReqId: () => clock.newId(),
    loggerInstance: log,
    logController: new LogController({ disableRequestLogging: true }),
    forceCloseConnections: true,
  });
  const instance: FastifyInstance = adapter.getInstance<FastifyInstance>();
  await setSecurityHeaders(instance, config.origins[0].startsWith('https:'));
  await setBodyLimits(instance);
  await instance.register(fastifyStatic, { root: config.webFolder, serve: false });
  instance.addHook('onRequest', async (request, reply) => {
    void reply.header('x-request-id', request.id);
    refuseOtherOrigins(request.method, request.headers, config.origins);
  });
  // eslint-disable-next-line @typescript-eslint/no-unsafe-class-instance-assignment -- the framework types its plain options as a class
  const app = await NestFactory.create<NestFastifyApplication>(AppModule.with({ config, clock, log }), adapter, {
    abortOnError: false,
    logger: frameworkLog,
  });
  const sockets = new SocketAdapter(app, config, log);
  await sockets.connect();
  app.useWebSocketAdapter(sockets);
  serveApiDocument(app);
  await app.init();
  await instance.ready();
  frameworkLog.hasStarted = true;
  return app;
}
