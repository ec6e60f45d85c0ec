import { Body, Controller, Get, Headers, Patch, Post, Res } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import type { z } from 'zod';
import { courseChange, courseDetail, courseDraft, shelf } from '../../contract/index.ts';
import { Answers } from '../http/answers.ts';
import { etagOfVersion, versionSeen } from '../http/etag.ts';
import { IdParam } from '../http/id-param.ts';
import { OncePerKey } from '../idempotency/once-per-key.ts';
import type { Person } from '../people/person.ts';
import { By } from '../people/request-person.ts';
import { CoursesService, type VersionedCourse } from './courses.service.ts';

@ApiTags('courses')
@Controller('api')
export class CoursesController {
  constructor(private readonly courses: CoursesService) {}

  @Get(['shelf', 'courses'])
  @Answers({ summary: 'The courses that I am in', schema: shelf })
  shelf(@By() by: Person): Promise<z.input<typeof shelf>> {
    return this.courses.shelf(by);
  }

  @Post('courses')
  @OncePerKey()
  @Answers({
    summary: 'Make a course and own it',
    status: 201,
    schema: courseDetail,
    errors: ['body-invalid', 'operation-differs', 'already-there'],
  })
  async make(
    @By() by: Person,
    @Body({ schema: courseDraft }) draft: z.output<typeof courseDraft>,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<VersionedCourse> {
    return tagged(reply, await this.courses.make(by, draft));
  }

  @Get('courses/:id')
  @Answers({
    summary: 'A course: all of it for its teachers, its releases for students',
    schema: courseDetail,
    errors: ['not-found'],
  })
  async detail(
    @By() by: Person,
    @IdParam() id: string,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<VersionedCourse> {
    return tagged(reply, await this.courses.detail(by, id));
  }

  @Patch('courses/:id')
  @Answers({
    summary: 'Change title or summary; If-Match guards against a colleague’s change',
    schema: courseDetail,
    errors: ['body-invalid', 'not-permitted', 'not-found', 'changed-meanwhile'],
  })
  async change(
    @By() by: Person,
    @IdParam() id: string,
    @Body({ schema: courseChange }) change: z.output<typeof courseChange>,
    @Headers('if-match') ifMatch: string | undefined,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<VersionedCourse> {
    return tagged(reply, await this.courses.change(by, id, change, versionSeen(ifMatch)));
  }
}

function tagged(reply: FastifyReply, course: VersionedCourse): VersionedCourse {
  void reply.header('etag', etagOfVersion(course.version));
  return course;
}
