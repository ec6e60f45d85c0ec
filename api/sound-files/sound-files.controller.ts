import { createReadStream } from 'node:fs';
import { Body, Controller, Delete, Get, Post, Res } from '@nestjs/common';
import { ApiProduces, ApiTags } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import { soundFilesJob, soundFilesWish, type SoundFilesJob, type SoundFilesWish } from '../../contract/index.ts';
import { attachment } from '../exports/file-names.ts';
import { Answers } from '../http/answers.ts';
import { IdParam } from '../http/id-param.ts';
import type { Person } from '../people/person.ts';
import { By } from '../people/request-person.ts';
import { soundMediaTypes, type SoundFormat } from '../../recording/index.ts';
import { SoundFilesService } from './sound-files.service.ts';

const zip = 'application/zip';

function mediaTypeOf(name: string): string {
  const ending = name.slice(name.lastIndexOf('.') + 1);
  return ending in soundMediaTypes ? soundMediaTypes[ending as SoundFormat] : zip;
}

@ApiTags('sound files')
@Controller('api/songs/:id/sound-files')
export class SoundFilesController {
  constructor(private readonly soundFiles: SoundFilesService) {}

  @Post()
  @Answers({
    summary: 'Begins to play the song into sound files; ask for its state until it is ready',
    status: 201,
    schema: soundFilesJob,
    errors: ['body-invalid', 'not-permitted', 'not-found', 'too-many-requests'],
  })
  begin(
    @By() by: Person,
    @IdParam() id: string,
    @Body({ schema: soundFilesWish }) wish: SoundFilesWish,
  ): Promise<SoundFilesJob> {
    return this.soundFiles.begin(by, id, wish);
  }

  @Get(':making')
  @Answers({
    summary: 'How far a making of sound files is: its place in the queue, its share, or where the file lies',
    schema: soundFilesJob,
    errors: ['not-permitted', 'not-found'],
  })
  detail(@By() by: Person, @IdParam() id: string, @IdParam('making') making: string): Promise<SoundFilesJob> {
    return this.soundFiles.detail(by, id, making);
  }

  @Delete(':making')
  @Answers({
    summary: 'Stops a making of sound files and takes away what it made',
    status: 204,
    errors: ['not-permitted', 'not-found'],
  })
  stop(@By() by: Person, @IdParam() id: string, @IdParam('making') making: string): Promise<void> {
    return this.soundFiles.stop(by, id, making);
  }

  @Get(':making/file')
  @ApiProduces(...Object.values(soundMediaTypes), zip)
  @Answers({ summary: 'The file, once it is ready', errors: ['not-permitted', 'not-found'] })
  async file(
    @By() by: Person,
    @IdParam() id: string,
    @IdParam('making') making: string,
    @Res() reply: FastifyReply,
  ): Promise<void> {
    const { name, path, bytes } = await this.soundFiles.file(by, id, making);
    await reply
      .header('content-type', mediaTypeOf(name))
      .header('content-length', bytes)
      .header('content-disposition', attachment(name))
      .header('cache-control', 'private, no-store')
      .send(createReadStream(path));
  }
}
