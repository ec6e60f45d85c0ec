import { Module } from '@nestjs/common';
import { CoursesModule } from '../courses/courses.module.ts';
import { LessonsModule } from '../lessons/lessons.module.ts';
import { AttemptRepository } from './attempt.repository.ts';
import { PracticeController } from './practice.controller.ts';
import { PracticeService } from './practice.service.ts';

@Module({
  imports: [CoursesModule, LessonsModule],
  controllers: [PracticeController],
  providers: [PracticeService, AttemptRepository],
})
export class PracticeModule {}
