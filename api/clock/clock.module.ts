import { Global, Module, type DynamicModule } from '@nestjs/common';
import { Clock } from './clock.ts';

@Global()
@Module({})
export class ClockModule {
  static with(clock: Clock): DynamicModule {
    return { module: ClockModule, providers: [{ provide: Clock, useValue: clock }], exports: [Clock] };
  }
}
