import { Body, Controller, Get, Headers, Put, Res } from '@nestjs/common';
import { ApiHeader, ApiTags } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import { songSound, type SongSound } from '../../contract/index.ts';
import { Answers } from '../http/answers.ts';
import { etagOfVersion, versionSeenOrRefuse } from '../http/etag.ts';
import { IdParam } from '../http/id-param.ts';
import type { Person } from '../people/person.ts';
import { By } from '../people/request-person.ts';
import type { VersionedSound } from './song-sound.repository.ts';
import { SongSoundService } from './song-sound.service.ts';

@ApiTags('songs')
@Controller('api/songs/:id/sound')
export class SongSoundController {
  constructor(private readonly sounds: SongSoundService) {}

  @Get()
  @Answers({
    summary: 'How a song is played, and its named mixes; the ETag is their version',
    schema: songSound,
    errors: ['not-permitted', 'not-found'],
  })
  async detail(
    @By() by: Person,
    @IdParam() id: string,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<SongSound> {
    return tagged(reply, await this.sounds.detail(by, id));
  }

  @Put()
  @ApiHeader({ name: 'if-match', required: true, description: 'The ETag of the version that was changed' })
  @Answers({
    summary: 'Set how a song is played and its named mixes, where nobody else has changed them meanwhile',
    schema: songSound,
    errors: ['body-invalid', 'not-permitted', 'not-found', 'changed-meanwhile', 'precondition-missing', 'too-large'],
  })
  async replace(
    @By() by: Person,
    @IdParam() id: string,
    @Body({ schema: songSound }) sound: SongSound,
    @Headers('if-match') ifMatch: string | undefined,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<SongSound> {
    await this.sounds.detail(by, id);
    return tagged(reply, await this.sounds.replace(by, id, sound, versionSeenOrRefuse(ifMatch)));
  }
}

function tagged(reply: FastifyReply, sound: VersionedSound): VersionedSound {
  void reply.header('etag', etagOfVersion(sound.version));
  return sound;
}
