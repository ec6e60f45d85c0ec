import { Body, Controller, Get, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { attempt, attemptDraft, attemptsOfRelease, progressOfCourse } from '../../contract/index.ts';
import { Answers } from '../http/answers.ts';
import { IdParam } from '../http/id-param.ts';
import { OncePerKey } from '../idempotency/once-per-key.ts';
import type { Person } from '../people/person.ts';
import { By } from '../people/request-person.ts';
import { PracticeService } from './practice.service.ts';

@ApiTags('practice')
@Controller('api')
export class PracticeController {
  constructor(private readonly practice: PracticeService) {}

  @Post('releases/:id/attempts')
  @OncePerKey()
  @Answers({
    summary: 'Keep how one judged one’s own try',
    status: 201,
    schema: attempt,
    errors: ['body-invalid', 'not-found', 'operation-differs', 'already-there'],
  })
  record(
    @By() by: Person,
    @IdParam() id: string,
    @Body({ schema: attemptDraft }) draft: z.output<typeof attemptDraft>,
  ): Promise<z.output<typeof attempt>> {
    return this.practice.record(by, id, draft);
  }

  @Get('releases/:id/attempts')
  @Answers({ summary: 'One’s own tries, oldest first', schema: attemptsOfRelease, errors: ['not-found'] })
  own(@By() by: Person, @IdParam() id: string): Promise<z.output<typeof attemptsOfRelease>> {
    return this.practice.own(by, id);
  }

  @Get('courses/:id/progress')
  @Answers({
    summary: 'How every student fares, lesson by lesson',
    schema: progressOfCourse,
    errors: ['not-permitted', 'not-found'],
  })
  progress(@By() by: Person, @IdParam() id: string): Promise<z.output<typeof progressOfCourse>> {
    return this.practice.progress(by, id);
  }
}
