import { Global, Module, type DynamicModule } from '@nestjs/common';
import { LOG, type Log } from './log.ts';

@Global()
@Module({})
export class LogModule {
  static with(log: Log): DynamicModule {
    return { module: LogModule, providers: [{ provide: LOG, useValue: log }], exports: [LOG] };
  }
}
