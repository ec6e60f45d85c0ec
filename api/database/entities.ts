import { CourseEntity } from '../courses/course.entity.ts';
import { EnrolmentCodeEntity } from '../courses/enrolment-code.entity.ts';
import { InvitationEntity } from '../courses/invitation.entity.ts';
import { MembershipEntity } from '../courses/membership.entity.ts';
import { KeptAnswerEntity } from '../idempotency/kept-answer.entity.ts';
import { LessonEntity } from '../lessons/lesson.entity.ts';
import { ReleaseEntity } from '../lessons/release.entity.ts';
import { PersonEntity } from '../people/person.entity.ts';
import { AttemptEntity } from '../practice/attempt.entity.ts';
import { OwnMixesEntity } from '../practice/own-mixes.entity.ts';
import { ScoreFileEntity } from '../scores/score-file.entity.ts';
import { ScoreVersionEntity } from '../scores/score-version.entity.ts';
import { SongEntity } from '../scores/song.entity.ts';
import { SongSoundEntity } from '../song-sound/song-sound.entity.ts';
import { LineEntity } from '../splits/line.entity.ts';
import { MarkEntity } from '../splits/mark.entity.ts';
import { SplitEntity } from '../splits/split.entity.ts';
import { SplitOperationEntity } from '../splits/split-operation.entity.ts';

/** Every table that is ours. */
export const entities = [
  PersonEntity,
  CourseEntity,
  MembershipEntity,
  InvitationEntity,
  EnrolmentCodeEntity,
  SongEntity,
  ScoreFileEntity,
  ScoreVersionEntity,
  SplitEntity,
  LineEntity,
  MarkEntity,
  SplitOperationEntity,
  LessonEntity,
  ReleaseEntity,
  AttemptEntity,
  KeptAnswerEntity,
  SongSoundEntity,
  OwnMixesEntity,
] as const;
