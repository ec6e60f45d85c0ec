import { Body, Controller, Get, Headers, Patch, Post, Res } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import type { z } from 'zod';
import { songChange, songDetail, songDraft } from '../../contract/index.ts';
import { Answers } from '../http/answers.ts';
import { etagOfVersion, versionSeen } from '../http/etag.ts';
import { IdParam } from '../http/id-param.ts';
import { OncePerKey } from '../idempotency/once-per-key.ts';
import type { Person } from '../people/person.ts';
import { By } from '../people/request-person.ts';
import { SongsService, type VersionedSong } from './songs.service.ts';

@ApiTags('songs')
@Controller('api')
export class SongsController {
  constructor(private readonly songs: SongsService) {}

  @Post('courses/:id/songs')
  @OncePerKey()
  @Answers({
    summary: 'Add a song to a course',
    status: 201,
    schema: songDetail,
    errors: ['body-invalid', 'not-permitted', 'not-found', 'operation-differs', 'already-there'],
  })
  async make(
    @By() by: Person,
    @IdParam() courseId: string,
    @Body({ schema: songDraft }) draft: z.output<typeof songDraft>,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<VersionedSong> {
    return tagged(reply, await this.songs.make(by, courseId, draft));
  }

  @Get('songs/:id')
  @Answers({
    summary: 'A song with what was read from its score',
    schema: songDetail,
    errors: ['not-permitted', 'not-found'],
  })
  async detail(
    @By() by: Person,
    @IdParam() id: string,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<VersionedSong> {
    return tagged(reply, await this.songs.detail(by, id));
  }

  @Patch('songs/:id')
  @Answers({
    summary: 'Change title, composer or the parts that are split; If-Match guards against a colleague’s change',
    schema: songDetail,
    errors: ['body-invalid', 'not-permitted', 'not-found', 'changed-meanwhile', 'nothing-to-split'],
  })
  async change(
    @By() by: Person,
    @IdParam() id: string,
    @Body({ schema: songChange }) change: z.output<typeof songChange>,
    @Headers('if-match') ifMatch: string | undefined,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<VersionedSong> {
    return tagged(reply, await this.songs.change(by, id, change, versionSeen(ifMatch)));
  }
}

function tagged(reply: FastifyReply, song: VersionedSong): VersionedSong {
  void reply.header('etag', etagOfVersion(song.version));
  return song;
}
