import { createParamDecorator, SetMetadata, type ExecutionContext } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import { DomainError } from '../errors/domain-error.ts';
import type { Person } from './person.ts';

/** A request after the session guard has seen it. */
export type KnownRequest = FastifyRequest & { person?: Person };

export const OPEN_TO_ALL = Symbol('openToAll');

/** Marks a route that nobody need be signed in for. */
export const OpenToAll = (): MethodDecorator & ClassDecorator => SetMetadata(OPEN_TO_ALL, true);

/** The signed-in person who asks. */
export const By = createParamDecorator((_: unknown, context: ExecutionContext): Person => {
  const { person } = context.switchToHttp().getRequest<KnownRequest>();
  if (person === undefined) throw new DomainError('not-signed-in', 'Please sign in first.');
  return person;
});

/** The person who asks, or null for a stranger; only on routes that are open to all. */
export const ByAnyone = createParamDecorator(
  (_: unknown, context: ExecutionContext): Person | null =>
    context.switchToHttp().getRequest<KnownRequest>().person ?? null,
);
