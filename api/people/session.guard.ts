import { Injectable, type CanActivate, type ExecutionContext } from '@nestjs/common';
import { Reflector } from '@nestjs/core';
import type { FastifyReply } from 'fastify';
import { DomainError } from '../errors/domain-error.ts';
import { sendCookies } from '../http/cookies.ts';
import { headersOf } from '../http/headers-of.ts';
import { OPEN_TO_ALL, type KnownRequest } from './request-person.ts';
import { SignInRepository } from './sign-in.repository.ts';

/** Lets nobody past who is not signed in, unless the route is open to all. */
@Injectable()
export class SessionGuard implements CanActivate {
  constructor(
    private readonly reflector: Reflector,
    private readonly signIn: SignInRepository,
  ) {}

  async canActivate(context: ExecutionContext): Promise<boolean> {
    if (context.getType() !== 'http') return true;
    const request = context.switchToHttp().getRequest<KnownRequest>();
    const session = request.headers.cookie === undefined ? null : await this.signIn.sessionOf(headersOf(request));
    if (session !== null) {
      request.person = session.person;
      sendCookies(context.switchToHttp().getResponse<FastifyReply>(), session.cookies);
      return true;
    }
    const isOpen = this.reflector.getAllAndOverride<boolean | undefined>(OPEN_TO_ALL, [
      context.getHandler(),
      context.getClass(),
    ]);
    if (isOpen === true) return true;
    throw new DomainError('not-signed-in', 'Please sign in first.');
  }
}
