import { Body, Controller, Delete, Get, Param, Post, Req, Res, UseGuards } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { ThrottlerGuard } from '@nestjs/throttler';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { z } from 'zod';
import {
  courseJoined,
  enrolmentCodeMade,
  enrolmentDraft,
  enrolmentTold,
  invitationAcceptance,
  invitationDraft,
  invitationMade,
  invitationTold,
  peopleOfCourse,
  secretInLink,
} from '../../contract/index.ts';
import { Answers } from '../http/answers.ts';
import { sendCookies } from '../http/cookies.ts';
import { headersOf } from '../http/headers-of.ts';
import { IdParam } from '../http/id-param.ts';
import type { Person } from '../people/person.ts';
import { By, ByAnyone, OpenToAll } from '../people/request-person.ts';
import { CoursePeopleService } from './course-people.service.ts';
import { EnrolmentsService } from './enrolments.service.ts';
import { InvitationsService, type CameIn } from './invitations.service.ts';

@ApiTags('people of a course')
@Controller('api')
export class CoursePeopleController {
  constructor(
    private readonly people: CoursePeopleService,
    private readonly invitations: InvitationsService,
    private readonly enrolments: EnrolmentsService,
  ) {}

  @Get('courses/:id/people')
  @Answers({ summary: 'Members and open invitations', schema: peopleOfCourse, errors: ['not-permitted', 'not-found'] })
  list(@By() by: Person, @IdParam() id: string): Promise<z.output<typeof peopleOfCourse>> {
    return this.people.list(by, id);
  }

  @Delete('courses/:id/people/:personId')
  @Answers({ summary: 'End a membership, or leave', status: 204, errors: ['not-permitted', 'not-found'] })
  async remove(@By() by: Person, @IdParam() id: string, @IdParam('personId') personId: string): Promise<void> {
    await this.people.remove(by, id, personId);
  }

  @Post('courses/:id/invitations')
  @Answers({
    summary: 'Invite a co-teacher; the link is told once',
    status: 201,
    schema: invitationMade,
    errors: ['body-invalid', 'not-permitted', 'not-found'],
  })
  invite(
    @By() by: Person,
    @IdParam() id: string,
    @Body({ schema: invitationDraft }) draft: z.output<typeof invitationDraft>,
  ): Promise<z.output<typeof invitationMade>> {
    return this.invitations.invite(by, id, draft);
  }

  @Delete('courses/:id/invitations/:invitationId')
  @Answers({
    summary: 'Withdraw an invitation that nobody has taken up',
    status: 204,
    errors: ['not-permitted', 'not-found'],
  })
  async withdraw(
    @By() by: Person,
    @IdParam() id: string,
    @IdParam('invitationId') invitationId: string,
  ): Promise<void> {
    await this.invitations.withdraw(by, id, invitationId);
  }

  @Get('invitations/:token')
  @OpenToAll()
  @UseGuards(ThrottlerGuard)
  @Answers({
    summary: 'What an invitation is for',
    schema: invitationTold,
    errors: ['not-found', 'code-expired', 'too-many-requests'],
  })
  tellInvitation(@Param('token', { schema: secretInLink }) token: string): Promise<z.output<typeof invitationTold>> {
    return this.invitations.tell(token);
  }

  @Post('invitations/:token/acceptance')
  @OpenToAll()
  @UseGuards(ThrottlerGuard)
  @Answers({
    summary: 'Take an invitation up, signed in or as somebody new',
    schema: courseJoined,
    errors: ['body-invalid', 'not-found', 'code-expired', 'already-there', 'too-many-requests'],
  })
  async accept(
    @ByAnyone() by: Person | null,
    @Param('token', { schema: secretInLink }) token: string,
    @Body({ schema: invitationAcceptance }) acceptance: z.output<typeof invitationAcceptance>,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<z.output<typeof courseJoined>> {
    return cameIn(reply, await this.invitations.accept(by, token, acceptance, headersOf(request)));
  }

  @Post('courses/:id/enrolment-codes')
  @Answers({
    summary: 'Make a code that lets students in; told once',
    status: 201,
    schema: enrolmentCodeMade,
    errors: ['not-permitted', 'not-found'],
  })
  makeCode(@By() by: Person, @IdParam() id: string): Promise<z.output<typeof enrolmentCodeMade>> {
    return this.enrolments.makeCode(by, id);
  }

  @Get('enrolment-codes/:code')
  @OpenToAll()
  @UseGuards(ThrottlerGuard)
  @Answers({
    summary: 'What an enrolment code is for',
    schema: enrolmentTold,
    errors: ['not-found', 'code-expired', 'too-many-requests'],
  })
  tellCode(@Param('code', { schema: secretInLink }) code: string): Promise<z.output<typeof enrolmentTold>> {
    return this.enrolments.tell(code);
  }

  @Post('enrolments')
  @OpenToAll()
  @UseGuards(ThrottlerGuard)
  @Answers({
    summary: 'Join a course by code, signed in or as somebody new',
    schema: courseJoined,
    errors: ['body-invalid', 'not-found', 'code-expired', 'already-there', 'too-many-requests'],
  })
  async enrol(
    @ByAnyone() by: Person | null,
    @Body({ schema: enrolmentDraft }) draft: z.output<typeof enrolmentDraft>,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<z.output<typeof courseJoined>> {
    return cameIn(reply, await this.enrolments.enrol(by, draft, headersOf(request)));
  }
}

function cameIn(reply: FastifyReply, { joined, cookies }: CameIn): z.output<typeof courseJoined> {
  sendCookies(reply, cookies);
  return joined;
}
