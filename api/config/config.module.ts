import { Global, Module, type DynamicModule } from '@nestjs/common';
import type { Config } from './config.ts';

/** The token under which the configuration is injected. */
export const CONFIG = Symbol('config');

@Global()
@Module({})
export class ConfigModule {
  static with(config: Config): DynamicModule {
    return { module: ConfigModule, providers: [{ provide: CONFIG, useValue: config }], exports: [CONFIG] };
  }
}
