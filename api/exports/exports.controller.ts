import { Controller, Get, Query, Res } from '@nestjs/common';
import { ApiProduces, ApiTags } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import { exportQuery, type ExportWish } from '../../contract/index.ts';
import { Answers } from '../http/answers.ts';
import { IdParam } from '../http/id-param.ts';
import type { Person } from '../people/person.ts';
import { By } from '../people/request-person.ts';
import { ExportsService } from './exports.service.ts';
import { attachment } from './file-names.ts';
import { mediaTypes } from './media-types.ts';

@ApiTags('exports')
@Controller('api/songs/:id/export')
export class ExportsController {
  constructor(private readonly exports: ExportsService) {}

  @Get()
  @ApiProduces(...Object.values(mediaTypes))
  @Answers({
    summary: 'The song, its lines written out, or one of them, as a file; `heddle-notes` tells what it could not say',
    errors: ['body-invalid', 'not-permitted', 'not-found', 'reading-timed-out', 'too-large', 'too-many-requests'],
  })
  async file(
    @By() by: Person,
    @IdParam() id: string,
    @Query({ schema: exportQuery }) wish: ExportWish,
    @Res() reply: FastifyReply,
  ): Promise<void> {
    const { name, format, bytes, notes } = await this.exports.file(by, id, wish);
    await reply
      .header('content-type', mediaTypes[format])
      .header('content-disposition', attachment(name))
      .header('cache-control', 'private, no-store')
      .header('heddle-notes', encodeURIComponent(JSON.stringify(notes)))
      .send(Buffer.from(bytes));
  }
}
