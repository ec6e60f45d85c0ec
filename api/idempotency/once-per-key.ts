import { applyDecorators, UseInterceptors } from '@nestjs/common';
import { ApiHeader } from '@nestjs/swagger';
import { OncePerKeyInterceptor } from './once-per-key.interceptor.ts';

/** Marks a route that makes something: with an Idempotency-Key the same request makes it once. */
export const OncePerKey = (): MethodDecorator =>
  applyDecorators(
    UseInterceptors(OncePerKeyInterceptor),
    ApiHeader({
      name: 'idempotency-key',
      required: false,
      description: 'Your own name for this request; sent again within a day, it is answered again and not done again',
    }),
  );
