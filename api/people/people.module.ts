import { Module } from '@nestjs/common';
import { APP_GUARD } from '@nestjs/core';
import { PeopleController } from './people.controller.ts';
import { PeopleService } from './people.service.ts';
import { PersonRepository } from './person.repository.ts';
import { SessionGuard } from './session.guard.ts';
import { SignInController } from './sign-in.controller.ts';
import { SignInRepository } from './sign-in.repository.ts';

@Module({
  controllers: [PeopleController, SignInController],
  providers: [PeopleService, PersonRepository, SignInRepository, { provide: APP_GUARD, useClass: SessionGuard }],
  exports: [PeopleService, SignInRepository],
})
export class PeopleModule {}
