import { Controller, Get, Headers, Post, Req, Res } from '@nestjs/common';
import { ApiBody, ApiConsumes, ApiProduces, ApiTags } from '@nestjs/swagger';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { scoreVersion } from '../../contract/index.ts';
import { Answers } from '../http/answers.ts';
import { IdParam } from '../http/id-param.ts';
import type { Person } from '../people/person.ts';
import { By } from '../people/request-person.ts';
import type { ToldVersion } from './score-version.repository.ts';
import { ScoresService } from './scores.service.ts';
import { uploadedFile } from './uploaded-file.ts';

const MUSIC_XML = 'application/vnd.recordare.musicxml+xml';
const NOT_MODIFIED = 304;

@ApiTags('scores')
@Controller('api/songs/:id/score')
export class ScoresController {
  constructor(private readonly scores: ScoresService) {}

  @Post()
  @ApiConsumes('multipart/form-data', 'application/octet-stream')
  @ApiBody({ schema: { type: 'object', properties: { file: { type: 'string', format: 'binary' } } } })
  @Answers({
    summary: 'Upload MusicXML as the next version of the score',
    status: 201,
    schema: scoreVersion,
    errors: [
      'body-invalid',
      'file-refused',
      'reading-timed-out',
      'too-large',
      'not-permitted',
      'not-found',
      'too-many-requests',
    ],
  })
  async upload(@By() by: Person, @IdParam() id: string, @Req() request: FastifyRequest): Promise<ToldVersion> {
    return this.scores.upload(by, id, await uploadedFile(request));
  }

  @Get('original')
  @ApiProduces('application/octet-stream')
  @Answers({ summary: 'The file as it was uploaded', errors: ['not-permitted', 'not-found'] })
  async original(@By() by: Person, @IdParam() id: string, @Res() reply: FastifyReply): Promise<void> {
    const { fileName, bytes } = await this.scores.original(by, id);
    await reply
      .header('content-type', 'application/octet-stream')
      .header('content-disposition', `attachment; filename*=UTF-8''${encodeURIComponent(fileName)}`)
      .send(bytes);
  }

  @Get(['', 'normalised.musicxml'])
  @ApiProduces(MUSIC_XML)
  @Answers({
    summary: 'The score as MusicXML with our names on bars and notes',
    errors: ['not-permitted', 'not-found'],
  })
  async normalised(
    @By() by: Person,
    @IdParam() id: string,
    @Headers('if-none-match') known: string | undefined,
    @Res() reply: FastifyReply,
  ): Promise<void> {
    const { xml, hash } = await this.scores.normalised(by, id);
    const etag = `"${hash}"`;
    void reply.header('etag', etag).header('cache-control', 'private, no-cache');
    if (known === etag) await reply.status(NOT_MODIFIED).send();
    else await reply.header('content-type', MUSIC_XML).send(xml);
  }
}
