export { uuid, title, prose, instant, secretInLink } from './ids.ts';
export { expressionSchema, type Expression } from '../music/index.ts';
export { excerptSchema } from './excerpt.ts';
export { me, password, signInLinkTaken, passwordChange, invitedNewcomer, enrolledNewcomer } from './person.ts';
export {
  courseRole,
  courseDraft,
  courseChange,
  courseOnShelf,
  shelf,
  songInCourse,
  lessonInCourse,
  releaseInCourse,
  courseDetail,
  memberOfCourse,
  invitationDraft,
  invitationMade,
  enrolmentCodeMade,
  enrolmentDraft,
  enrolmentTold,
  courseJoined,
  peopleOfCourse,
  invitationTold,
  invitationAcceptance,
  type CourseRole,
} from './course.ts';
export {
  songDraft,
  songChange,
  importIssue,
  scoreFacts,
  readingChoice,
  scoreReading,
  scoreFingering,
  scoreVersion,
  songDetail,
  type ReadingChoice,
  type ScoreReading,
} from './song.ts';
export {
  view,
  lineMix,
  pathStep,
  lessonStep,
  lessonDraft,
  lessonChange,
  lessonOrder,
  lessonDetail,
  releaseContent,
  releaseDetail,
  attemptDraft,
  attempt,
  attemptsOfRelease,
  progressOfCourse,
  type PathStep,
  type LessonStep,
  type ReleaseContent,
} from './lesson.ts';
export {
  lineInstrument,
  mixOfLine,
  namedMix,
  namedMixes,
  playingSchema,
  plainPlaying,
  songSound,
  ownMixes,
  type NamedMix,
  type Playing,
  type SongSound,
  type OwnMixes,
} from './song-sound.ts';
export {
  submission,
  splitSnapshot,
  orderedOperation,
  operationsSince,
  operationsQuery,
  proposalDraft,
  proposal,
} from './split.ts';
export {
  exportWhat,
  exportFormat,
  exportEnsemble,
  exportEnsembles,
  exportQuery,
  exportNotes,
  type ExportWhat,
  type ExportFormat,
  type ExportEnsemble,
  type ExportWish,
} from './export.ts';
export { soundFilesWish, soundFilesJob, type SoundFilesWish, type SoundFilesJob } from './sound-files.ts';
export {
  PROTOCOL_VERSION,
  presence,
  clientMessage,
  serverMessage,
  type ClientMessage,
  type ServerMessage,
} from './socket.ts';
export { errorStatus, errorCode, problem, type ErrorCode, type Problem } from './errors.ts';
