import { Module } from '@nestjs/common';
import { CoursesModule } from '../courses/courses.module.ts';
import { LessonsModule } from '../lessons/lessons.module.ts';
import { AttemptRepository } from './attempt.repository.ts';
import { OwnMixesController } from './own-mixes.controller.ts';
import { OwnMixesRepository } from './own-mixes.repository.ts';
import { OwnMixesService } from './own-mixes.service.ts';
import { PracticeController } from './practice.controller.ts';
import { PracticeService } from './practice.service.ts';

@Module({
  imports: [CoursesModule, LessonsModule],
  controllers: [PracticeController, OwnMixesController],
  providers: [PracticeService, AttemptRepository, OwnMixesService, OwnMixesRepository],
})
export class PracticeModule {}
