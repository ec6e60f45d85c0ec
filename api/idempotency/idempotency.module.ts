import { Global, Module } from '@nestjs/common';
import { KeptAnswerRepository } from './kept-answer.repository.ts';
import { OncePerKeyInterceptor } from './once-per-key.interceptor.ts';

@Global()
@Module({
  providers: [KeptAnswerRepository, OncePerKeyInterceptor],
  exports: [KeptAnswerRepository, OncePerKeyInterceptor],
})
export class IdempotencyModule {}
