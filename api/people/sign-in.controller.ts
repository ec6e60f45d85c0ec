import { All, Controller, Req, Res } from '@nestjs/common';
import { ApiExcludeController } from '@nestjs/swagger';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { DomainError, notFound } from '../errors/domain-error.ts';
import { sendCookies } from '../http/cookies.ts';
import { headersOf } from '../http/headers-of.ts';
import { isStorable } from '../http/storable.ts';
import { OpenToAll } from './request-person.ts';
import { SIGN_IN_PATH } from './sign-in-options.ts';
import { SignInRepository } from './sign-in.repository.ts';

/** What is open of the sign-in library; every other of its routes is not there. */
const openRoutes: ReadonlySet<string> = new Set(['POST /sign-in/email', 'POST /sign-out', 'GET /get-session']);

@ApiExcludeController()
@Controller('api/auth')
export class SignInController {
  constructor(private readonly signIn: SignInRepository) {}

  @All('*')
  @OpenToAll()
  async handle(@Req() request: FastifyRequest, @Res() reply: FastifyReply): Promise<void> {
    const route = (request.url.split('?')[0] ?? '').slice(SIGN_IN_PATH.length);
    if (!openRoutes.has(`${request.method} ${route}`)) throw notFound('address');
    if (!isStorable(request.body)) throw refusalOf(route);
    const response = await this.signIn.handle(requestFor(request));
    if (response.status === 429) throw new DomainError('too-many-requests', 'Please wait a minute, then try again.');
    if (response.status >= 400 && response.status < 500) throw refusalOf(route);
    sendCookies(reply, response.headers.getSetCookie());
    await reply
      .status(response.status)
      .header('content-type', response.headers.get('content-type') ?? 'application/json')
      .header('cache-control', 'no-store')
      .send(await response.text());
  }
}

const refusalOf = (route: string): DomainError =>
  route === '/sign-in/email'
    ? new DomainError('not-signed-in', 'The address or the password is not right.')
    : new DomainError('body-invalid', 'The request is not in the right form.');

function requestFor(request: FastifyRequest): Request {
  const hasBody = request.method !== 'GET' && request.body !== undefined && request.body !== null;
  const url = new URL(request.url, `${request.protocol}://${request.host}`);
  const body = hasBody ? { body: JSON.stringify(request.body) } : {};
  return new Request(url, { method: request.method, headers: headersOf(request), ...body });
}
