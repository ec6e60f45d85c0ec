import path from 'node:path';
import { Controller, Get, Inject, Req, Res } from '@nestjs/common';
import { ApiExcludeController } from '@nestjs/swagger';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { Config } from '../config/config.ts';
import { CONFIG } from '../config/config.module.ts';
import { notFound } from '../errors/domain-error.ts';
import { soundWorkerPolicy } from '../http/security-headers.ts';
import { OpenToAll } from '../people/request-person.ts';

const soundWorker = /^\/assets\/sound-worker-[\w-]+\.js$/;
const ofTheServer = /^\/(api|socket|healthz)(\/|$)/;

/** Serves the built web app; which of its pages is shown is decided in the browser, so every page is the same file. */
@ApiExcludeController()
@Controller()
export class WebFilesController {
  constructor(@Inject(CONFIG) private readonly config: Config) {}

  @Get(['', '*'])
  @OpenToAll()
  async serve(@Req() request: FastifyRequest, @Res() reply: FastifyReply): Promise<void> {
    const address = decodeURIComponent(request.url.split('?')[0] ?? '/');
    if (ofTheServer.test(address)) throw notFound('address');
    const isPage = path.extname(address) === '';
    const isHashed = address.startsWith('/assets/');
    const options = isHashed ? { maxAge: '365d', immutable: true } : { cacheControl: false };
    if (!isHashed) void reply.header('cache-control', 'no-cache');
    if (soundWorker.test(address)) void reply.header('content-security-policy', soundWorkerPolicy);
    await reply.sendFile(isPage ? 'index.html' : address.slice(1), this.config.webFolder, options);
  }
}
