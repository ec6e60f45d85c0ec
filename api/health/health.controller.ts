import { Controller, Get } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { z } from 'zod';
import { Database } from '../database/database.ts';
import { Answers } from '../http/answers.ts';
import { OpenToAll } from '../people/request-person.ts';

const health = z.object({ status: z.literal('ok') });

@ApiTags('health')
@Controller()
export class HealthController {
  constructor(private readonly database: Database) {}

  @Get('healthz')
  @OpenToAll()
  @Answers({ summary: 'Answers once the API takes requests and its database answers', schema: health })
  async tell(): Promise<z.output<typeof health>> {
    await this.database.ping();
    return { status: 'ok' };
  }
}
