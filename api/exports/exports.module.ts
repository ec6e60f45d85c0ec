import { Module } from '@nestjs/common';
import { ScoresModule } from '../scores/scores.module.ts';
import { SplitsModule } from '../splits/splits.module.ts';
import { ExportsController } from './exports.controller.ts';
import { ExportsService } from './exports.service.ts';

@Module({
  imports: [ScoresModule, SplitsModule],
  controllers: [ExportsController],
  providers: [ExportsService],
  exports: [ExportsService],
})
export class ExportsModule {}
