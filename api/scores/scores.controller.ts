import { Body, Controller, Get, Headers, Post, Req, Res } from '@nestjs/common';
import { ApiBody, ApiConsumes, ApiHeader, ApiProduces, ApiTags } from '@nestjs/swagger';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { z } from 'zod';
import { readingChoice, scoreFingering, scoreVersion } from '../../contract/index.ts';
import { Answers } from '../http/answers.ts';
import { versionSeenOrRefuse } from '../http/etag.ts';
import { IdParam } from '../http/id-param.ts';
import type { Person } from '../people/person.ts';
import { By } from '../people/request-person.ts';
import { FingeringService } from './fingering.service.ts';
import { ReadingsService } from './readings.service.ts';
import type { ToldVersion } from './score-version.repository.ts';
import { ScoresService } from './scores.service.ts';
import { uploadedFile } from './uploaded-file.ts';

const MUSIC_XML = 'application/vnd.recordare.musicxml+xml';
const NOT_MODIFIED = 304;

@ApiTags('scores')
@Controller('api/songs/:id/score')
export class ScoresController {
  constructor(
    private readonly scores: ScoresService,
    private readonly readings: ReadingsService,
    private readonly fingering: FingeringService,
  ) {}

  @Post()
  @ApiConsumes('multipart/form-data', 'application/octet-stream')
  @ApiBody({ schema: { type: 'object', properties: { file: { type: 'string', format: 'binary' } } } })
  @Answers({
    summary:
      'Upload MusicXML, MIDI, ABC or text tablature as the next version of the score; how the one before was read is kept where the format is the same',
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

  @Post('reading')
  @ApiHeader({ name: 'if-match', required: true, description: 'The ETag of the song that was seen' })
  @Answers({
    summary: 'Read the file of the score again in another way: tune of ABC, grid of MIDI, octave, capo',
    schema: scoreVersion,
    errors: [
      'body-invalid',
      'precondition-missing',
      'changed-meanwhile',
      'file-refused',
      'reading-timed-out',
      'too-large',
      'not-permitted',
      'not-found',
      'too-many-requests',
    ],
  })
  async readAgain(
    @By() by: Person,
    @IdParam() id: string,
    @Body({ schema: readingChoice }) choice: z.output<typeof readingChoice>,
    @Headers('if-match') ifMatch: string | undefined,
  ): Promise<ToldVersion> {
    await this.readings.require(by, id);
    return this.readings.readAgain(by, id, choice, versionSeenOrRefuse(ifMatch));
  }

  @Get('fingering')
  @Answers({
    summary: 'String and fret of each note: the file’s own, or proposed where it has none',
    schema: scoreFingering,
    errors: ['not-permitted', 'not-found', 'reading-timed-out', 'too-large', 'too-many-requests'],
  })
  async fingeringOf(@By() by: Person, @IdParam() id: string): Promise<z.input<typeof scoreFingering>> {
    return this.fingering.of(by, id);
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
