import { Body, Controller, Get, Post, Put, Req, Res, UseGuards } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { ThrottlerGuard } from '@nestjs/throttler';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { z } from 'zod';
import { me, passwordChange, signInLinkTaken } from '../../contract/index.ts';
import { Answers } from '../http/answers.ts';
import { sendCookies } from '../http/cookies.ts';
import { headersOf } from '../http/headers-of.ts';
import { PeopleService } from './people.service.ts';
import type { Person } from './person.ts';
import { By, OpenToAll } from './request-person.ts';

@ApiTags('people')
@Controller('api')
export class PeopleController {
  constructor(private readonly people: PeopleService) {}

  @Get('me')
  @Answers({ summary: 'The person who is signed in', schema: me })
  me(@By() by: Person): Promise<z.output<typeof me>> {
    return this.people.me(by);
  }

  @Put('me/password')
  @UseGuards(ThrottlerGuard)
  @Answers({
    summary: 'Set or change the own password; every other session ends',
    status: 204,
    errors: ['body-invalid', 'not-permitted', 'too-many-requests'],
  })
  async setPassword(
    @By() by: Person,
    @Body({ schema: passwordChange }) change: z.output<typeof passwordChange>,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<void> {
    sendCookies(reply, await this.people.setPassword(by, change, headersOf(request)));
  }

  @Post('sign-in-links/acceptance')
  @OpenToAll()
  @UseGuards(ThrottlerGuard)
  @Answers({
    summary: 'Sign in by a one-time link',
    status: 204,
    errors: ['body-invalid', 'code-expired', 'too-many-requests'],
  })
  async acceptSignInLink(
    @Body({ schema: signInLinkTaken }) { token }: z.output<typeof signInLinkTaken>,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<void> {
    sendCookies(reply, await this.people.acceptSignInLink(token, headersOf(request)));
  }
}
