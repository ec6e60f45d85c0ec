import { Module } from '@nestjs/common';
import { ScoresModule } from '../scores/scores.module.ts';
import { SongSoundModule } from '../song-sound/song-sound.module.ts';
import { SplitsModule } from '../splits/splits.module.ts';
import { SoundFilesController } from './sound-files.controller.ts';
import { SoundFilesService } from './sound-files.service.ts';
import { SoundMaterial } from './sound-material.ts';
import { SoundQueue } from './sound-queue.ts';

@Module({
  imports: [ScoresModule, SplitsModule, SongSoundModule],
  controllers: [SoundFilesController],
  providers: [SoundFilesService, SoundMaterial, SoundQueue],
})
export class SoundFilesModule {}
