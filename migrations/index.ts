import { CreatePeople1795619800000 } from './1795619800000-create-people.ts';
import { CreateCourses1795619810000 } from './1795619810000-create-courses.ts';
import { CreateSongs1795619820000 } from './1795619820000-create-songs.ts';
import { CreateSplits1795619830000 } from './1795619830000-create-splits.ts';
import { CreateLessons1795619840000 } from './1795619840000-create-lessons.ts';
import { CreateAttempts1795619850000 } from './1795619850000-create-attempts.ts';
import { CreateKeptAnswers1795619860000 } from './1795619860000-create-kept-answers.ts';
import { CreateSounds1795619870000 } from './1795619870000-create-sounds.ts';
import { AddScoreReadings1795619880000 } from './1795619880000-add-score-readings.ts';
import { ChooseSoundingByPart1795619890000 } from './1795619890000-choose-sounding-by-part.ts';
import { KeepScoreFilesOnce1795619900000 } from './1795619900000-keep-score-files-once.ts';

/** Every schema change, oldest first. */
export const migrations = [
  CreatePeople1795619800000,
  CreateCourses1795619810000,
  CreateSongs1795619820000,
  CreateSplits1795619830000,
  CreateLessons1795619840000,
  CreateAttempts1795619850000,
  CreateKeptAnswers1795619860000,
  CreateSounds1795619870000,
  AddScoreReadings1795619880000,
  ChooseSoundingByPart1795619890000,
  KeepScoreFilesOnce1795619900000,
] as const;
