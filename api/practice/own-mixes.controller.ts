import { Body, Controller, Get, Headers, Put, Res } from '@nestjs/common';
import { ApiHeader, ApiTags } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import { ownMixes, type OwnMixes } from '../../contract/index.ts';
import { Answers } from '../http/answers.ts';
import { etagOfVersion, versionSeenOrRefuse } from '../http/etag.ts';
import { IdParam } from '../http/id-param.ts';
import type { Person } from '../people/person.ts';
import { By } from '../people/request-person.ts';
import type { VersionedMixes } from './own-mixes.repository.ts';
import { OwnMixesService } from './own-mixes.service.ts';

@ApiTags('practice')
@Controller('api/releases/:id/own-mixes')
export class OwnMixesController {
  constructor(private readonly own: OwnMixesService) {}

  @Get()
  @Answers({
    summary: 'One’s own mixes for the lesson of a release; the ETag is their version',
    schema: ownMixes,
    errors: ['not-found'],
  })
  async of(
    @By() by: Person,
    @IdParam() id: string,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<OwnMixes> {
    return tagged(reply, await this.own.of(by, id));
  }

  @Put()
  @ApiHeader({ name: 'if-match', required: true, description: 'The ETag of the version that was changed' })
  @Answers({
    summary: 'Keep one’s own mixes for the lesson of a release and of those after it',
    schema: ownMixes,
    errors: ['body-invalid', 'not-found', 'changed-meanwhile', 'precondition-missing', 'too-large'],
  })
  async replace(
    @By() by: Person,
    @IdParam() id: string,
    @Body({ schema: ownMixes }) mixes: OwnMixes,
    @Headers('if-match') ifMatch: string | undefined,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<OwnMixes> {
    await this.own.of(by, id);
    return tagged(reply, await this.own.replace(by, id, mixes, versionSeenOrRefuse(ifMatch)));
  }
}

function tagged(reply: FastifyReply, mixes: VersionedMixes): VersionedMixes {
  void reply.header('etag', etagOfVersion(mixes.version));
  return mixes;
}
