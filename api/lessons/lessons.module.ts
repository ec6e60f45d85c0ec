import { Module } from '@nestjs/common';
import { CoursesModule } from '../courses/courses.module.ts';
import { ScoresModule } from '../scores/scores.module.ts';
import { SplitsModule } from '../splits/splits.module.ts';
import { LessonAccess } from './lesson-access.ts';
import { LessonRepository } from './lesson.repository.ts';
import { LessonsController } from './lessons.controller.ts';
import { LessonsService } from './lessons.service.ts';
import { ReleaseContents } from './release-contents.ts';
import { ReleaseRepository } from './release.repository.ts';
import { ReleasesController } from './releases.controller.ts';
import { ReleasesService } from './releases.service.ts';

@Module({
  imports: [CoursesModule, ScoresModule, SplitsModule],
  controllers: [LessonsController, ReleasesController],
  providers: [LessonsService, ReleasesService, LessonAccess, LessonRepository, ReleaseRepository, ReleaseContents],
  exports: [LessonsService, ReleasesService, LessonAccess],
})
export class LessonsModule {}
