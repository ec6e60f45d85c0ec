import { Module } from '@nestjs/common';
import { CoursesModule } from '../courses/courses.module.ts';
import { FingeringService } from './fingering.service.ts';
import { ReadingsService } from './readings.service.ts';
import { ScoreFileRepository } from './score-file.repository.ts';
import { ScoreKeeper } from './score-keeper.ts';
import { ScoreReader } from './score-reader.ts';
import { ScoreUploaded } from './score-uploaded.ts';
import { ScoreVersionRepository } from './score-version.repository.ts';
import { ScoresController } from './scores.controller.ts';
import { ScoresService } from './scores.service.ts';
import { SongAccess } from './song-access.ts';
import { SongRepository } from './song.repository.ts';
import { SongsController } from './songs.controller.ts';
import { SongsService } from './songs.service.ts';

@Module({
  imports: [CoursesModule],
  controllers: [SongsController, ScoresController],
  providers: [
    SongsService,
    ScoresService,
    ReadingsService,
    FingeringService,
    ScoreReader,
    ScoreKeeper,
    SongAccess,
    ScoreUploaded,
    SongRepository,
    ScoreFileRepository,
    ScoreVersionRepository,
  ],
  exports: [
    SongsService,
    ScoresService,
    SongAccess,
    ScoreUploaded,
    ScoreFileRepository,
    ScoreVersionRepository,
    SongRepository,
  ],
})
export class ScoresModule {}
