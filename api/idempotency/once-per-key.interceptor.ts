import { createHash } from 'node:crypto';
import { Injectable, type CallHandler, type ExecutionContext, type NestInterceptor } from '@nestjs/common';
import { from, lastValueFrom, type Observable } from 'rxjs';
import { Clock } from '../clock/clock.ts';
import { DomainError } from '../errors/domain-error.ts';
import type { KnownRequest } from '../people/request-person.ts';
import { KeptAnswerRepository } from './kept-answer.repository.ts';

const KEPT_MILLISECONDS = 86_400_000;
const LONGEST_KEY = 128;

/** The key that a request names itself by; null without one. **Errors** `body-invalid`. */
function keyOf(request: KnownRequest): string | null {
  const key = request.headers['idempotency-key'];
  if (key === undefined) return null;
  if (typeof key === 'string' && key.length > 0 && key.length <= LONGEST_KEY) return key;
  throw new DomainError('body-invalid', `An Idempotency-Key has 1 to ${LONGEST_KEY} characters.`);
}

const hashOf = (request: KnownRequest): string =>
  createHash('sha256')
    .update(JSON.stringify([request.method, request.url, request.body]))
    .digest('hex');

/** Lets a request with an Idempotency-Key happen once; the same one again within a day gets the same answer. */
@Injectable()
export class OncePerKeyInterceptor implements NestInterceptor {
  constructor(
    private readonly kept: KeptAnswerRepository,
    private readonly clock: Clock,
  ) {}

  intercept(context: ExecutionContext, next: CallHandler<object>): Observable<object> {
    const request = context.switchToHttp().getRequest<KnownRequest>();
    const key = keyOf(request);
    if (key === null || request.person === undefined) return next.handle();
    return from(this.once(request, { personId: request.person.id, key }, next));
  }

  private async once(
    request: KnownRequest,
    { personId, key }: { personId: string; key: string },
    next: CallHandler<object>,
  ): Promise<object> {
    const madeAt = this.clock.now();
    const requestHash = hashOf(request);
    await this.kept.forgetBefore(new Date(madeAt.getTime() - KEPT_MILLISECONDS));
    const before = await this.kept.claim({ personId, key, requestHash, answer: null, madeAt });
    if (before !== null) return answerAgain(before, requestHash);
    try {
      const answer = await lastValueFrom(next.handle());
      await this.kept.keep(personId, key, answer);
      return answer;
    } catch (error) {
      await this.kept.letGo(personId, key);
      throw error;
    }
  }
}

function answerAgain(before: { requestHash: string; answer: object | null }, requestHash: string): object {
  if (before.requestHash !== requestHash) {
    throw new DomainError('operation-differs', 'Another request was sent under the same Idempotency-Key.');
  }
  if (before.answer === null)
    throw new DomainError('already-there', 'This request is being worked on. Ask again in a moment.');
  return before.answer;
}
