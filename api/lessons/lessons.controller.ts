import { Body, Controller, Delete, Get, Headers, Patch, Post, Put, Res } from '@nestjs/common';
import { ApiHeader, ApiTags } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import type { z } from 'zod';
import { lessonChange, lessonDetail, lessonDraft, lessonOrder } from '../../contract/index.ts';
import { Answers } from '../http/answers.ts';
import { etagOfVersion, versionSeenOrRefuse } from '../http/etag.ts';
import { IdParam } from '../http/id-param.ts';
import { OncePerKey } from '../idempotency/once-per-key.ts';
import type { Person } from '../people/person.ts';
import { By } from '../people/request-person.ts';
import { LessonsService } from './lessons.service.ts';

type Told = z.output<typeof lessonDetail>;

@ApiTags('lessons')
@Controller('api')
export class LessonsController {
  constructor(private readonly lessons: LessonsService) {}

  @Post('songs/:id/lessons')
  @OncePerKey()
  @Answers({
    summary: 'Begin a lesson about a song',
    status: 201,
    schema: lessonDetail,
    errors: ['body-invalid', 'not-permitted', 'not-found', 'too-large', 'operation-differs', 'already-there'],
  })
  async make(
    @By() by: Person,
    @IdParam() songId: string,
    @Body({ schema: lessonDraft }) draft: z.output<typeof lessonDraft>,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<Told> {
    return tagged(reply, await this.lessons.make(by, songId, draft));
  }

  @Get('lessons/:id')
  @Answers({
    summary: 'A lesson as its teachers edit it; the ETag is its version',
    schema: lessonDetail,
    errors: ['not-permitted', 'not-found'],
  })
  async detail(
    @By() by: Person,
    @IdParam() id: string,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<Told> {
    return tagged(reply, await this.lessons.detail(by, id));
  }

  @Patch('lessons/:id')
  @ApiHeader({ name: 'if-match', required: true, description: 'The ETag of the version that was changed' })
  @Answers({
    summary: 'Change a lesson that nobody else has changed meanwhile',
    schema: lessonDetail,
    errors: ['body-invalid', 'not-permitted', 'not-found', 'changed-meanwhile', 'precondition-missing', 'too-large'],
  })
  async change(
    @By() by: Person,
    @IdParam() id: string,
    @Body({ schema: lessonChange }) change: z.output<typeof lessonChange>,
    @Headers('if-match') ifMatch: string | undefined,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<Told> {
    await this.lessons.detail(by, id);
    return tagged(reply, await this.lessons.change(by, id, change, versionSeenOrRefuse(ifMatch)));
  }

  @Delete('lessons/:id')
  @Answers({ summary: 'Take a lesson away, with its releases', status: 204, errors: ['not-permitted', 'not-found'] })
  async remove(@By() by: Person, @IdParam() id: string): Promise<void> {
    await this.lessons.remove(by, id);
  }

  @Put('courses/:id/lesson-order')
  @Answers({
    summary: 'Put all lessons of a course in a new order',
    status: 204,
    errors: ['body-invalid', 'not-permitted', 'not-found', 'changed-meanwhile'],
  })
  async order(
    @By() by: Person,
    @IdParam() id: string,
    @Body({ schema: lessonOrder }) order: z.output<typeof lessonOrder>,
  ): Promise<void> {
    await this.lessons.order(by, id, order);
  }
}

function tagged(reply: FastifyReply, lesson: Told): Told {
  void reply.header('etag', etagOfVersion(lesson.version));
  return lesson;
}
