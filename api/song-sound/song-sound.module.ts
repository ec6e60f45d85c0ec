import { Module } from '@nestjs/common';
import { ScoresModule } from '../scores/scores.module.ts';
import { SongSoundController } from './song-sound.controller.ts';
import { SongSoundRepository } from './song-sound.repository.ts';
import { SongSoundService } from './song-sound.service.ts';

@Module({
  imports: [ScoresModule],
  controllers: [SongSoundController],
  providers: [SongSoundService, SongSoundRepository],
  exports: [SongSoundRepository],
})
export class SongSoundModule {}
