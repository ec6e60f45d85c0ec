import { Module, type DynamicModule } from '@nestjs/common';
import { APP_FILTER, APP_INTERCEPTOR, APP_PIPE, Reflector } from '@nestjs/core';
import { StandardSchemaSerializerInterceptor } from '@nestjs/common';
import { ThrottlerModule } from '@nestjs/throttler';
import type { Clock } from './clock/clock.ts';
import { ClockModule } from './clock/clock.module.ts';
import type { Config } from './config/config.ts';
import { ConfigModule } from './config/config.module.ts';
import { CoursesModule } from './courses/courses.module.ts';
import { DatabaseModule } from './database/database.module.ts';
import { ProblemFilter } from './errors/problem.filter.ts';
import { HealthModule } from './health/health.module.ts';
import { ContractPipe } from './http/contract.pipe.ts';
import type { Log } from './http/log.ts';
import { LogModule } from './http/log.module.ts';
import { LessonsModule } from './lessons/lessons.module.ts';
import { IdempotencyModule } from './idempotency/idempotency.module.ts';
import { PeopleModule } from './people/people.module.ts';
import { PracticeModule } from './practice/practice.module.ts';
import { ExportsModule } from './exports/exports.module.ts';
import { ScoresModule } from './scores/scores.module.ts';
import { SongSoundModule } from './song-sound/song-sound.module.ts';
import { SoundFilesModule } from './sound-files/sound-files.module.ts';
import { SplitsModule } from './splits/splits.module.ts';
import { WebFilesModule } from './web-files/web-files.module.ts';
import { WorkersModule } from './workers/workers.module.ts';

/** What the app is made of beside its modules. */
export interface AppParts {
  readonly config: Config;
  readonly clock: Clock;
  readonly log: Log;
}

const MINUTE_MILLISECONDS = 60_000;

@Module({})
export class AppModule {
  static with({ config, clock, log }: AppParts): DynamicModule {
    const limit = { ttl: MINUTE_MILLISECONDS, limit: config.signInsPerMinute };
    return {
      module: AppModule,
      imports: [
        ConfigModule.with(config),
        ClockModule.with(clock),
        LogModule.with(log),
        ThrottlerModule.forRoot([limit]),
        DatabaseModule,
        PeopleModule,
        CoursesModule,
        WorkersModule,
        ScoresModule,
        SongSoundModule,
        SplitsModule,
        ExportsModule,
        SoundFilesModule,
        LessonsModule,
        PracticeModule,
        HealthModule,
        IdempotencyModule,
        WebFilesModule,
      ],
      providers: [
        { provide: APP_PIPE, useClass: ContractPipe },
        { provide: APP_FILTER, useClass: ProblemFilter },
        {
          provide: APP_INTERCEPTOR,
          useFactory: (reflector: Reflector) => new StandardSchemaSerializerInterceptor(reflector),
          inject: [Reflector],
        },
      ],
    };
  }
}
