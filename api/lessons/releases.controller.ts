import { createHash } from 'node:crypto';
import { Controller, Get, Headers, Post, Res } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import { releaseDetail } from '../../contract/index.ts';
import { Answers } from '../http/answers.ts';
import { IdParam } from '../http/id-param.ts';
import type { Person } from '../people/person.ts';
import { By } from '../people/request-person.ts';
import { ReleasesService, type ReleaseFound } from './releases.service.ts';

const NOT_MODIFIED = 304;
const CREATED = 201;
const CLOSING = Buffer.from('}');

@ApiTags('releases')
@Controller('api')
export class ReleasesController {
  constructor(private readonly releases: ReleasesService) {}

  @Post('lessons/:id/releases')
  @Answers({
    summary: 'Freeze a lesson for students; what has not changed is not released twice',
    status: 201,
    schema: releaseDetail,
    errors: ['not-permitted', 'not-found', 'nothing-to-split', 'operation-unknown-line', 'body-invalid'],
  })
  async release(@By() by: Person, @IdParam() id: string, @Res() reply: FastifyReply): Promise<void> {
    const found = await this.releases.release(by, id);
    await this.send(reply.status(CREATED), found);
  }

  @Get('releases/:id')
  @Answers({
    summary: 'A released lesson with the ones before and after it',
    schema: releaseDetail,
    errors: ['not-found'],
  })
  async detail(
    @By() by: Person,
    @IdParam() id: string,
    @Headers('if-none-match') known: string | undefined,
    @Res() reply: FastifyReply,
  ): Promise<void> {
    const found = await this.releases.find(by, id);
    const etag = etagOf(found);
    void reply.header('etag', etag).header('cache-control', 'private, no-cache');
    if (known === etag) await reply.status(NOT_MODIFIED).send();
    else await this.send(reply, found);
  }

  /** The content goes out as the very bytes that were hashed; it was held to its schema when it was frozen. */
  private async send(reply: FastifyReply, found: ReleaseFound): Promise<void> {
    const { release, previous, next } = found;
    const { id, lessonId, courseId, number, contentHash } = release;
    const about = {
      id,
      lessonId,
      courseId,
      number,
      releasedAt: release.releasedAt.toISOString(),
      contentHash,
      previous,
      next,
    };
    const content = await this.releases.contentOf(found);
    await reply
      .header('content-type', 'application/json; charset=utf-8')
      .send(Buffer.concat([Buffer.from(`${JSON.stringify(about).slice(0, -1)},"content":`), content, CLOSING]));
  }
}

const etagOf = ({ release, previous, next }: ReleaseFound): string =>
  `"${createHash('sha256')
    .update(JSON.stringify([release.contentHash, previous, next]))
    .digest('hex')}"`;
