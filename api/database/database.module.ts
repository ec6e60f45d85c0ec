import { Global, Module } from '@nestjs/common';
import { TypeOrmModule } from '@nestjs/typeorm';
import type { Config } from '../config/config.ts';
import { CONFIG } from '../config/config.module.ts';
import { dataSourceOptions } from './data-source-options.ts';
import { Database } from './database.ts';

@Global()
@Module({
  imports: [
    TypeOrmModule.forRootAsync({
      inject: [CONFIG],
      useFactory: (config: Config) => ({ ...dataSourceOptions(config.databaseUrl), retryAttempts: 0 }),
    }),
  ],
  providers: [Database],
  exports: [Database],
})
export class DatabaseModule {}
