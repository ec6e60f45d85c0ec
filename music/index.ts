export {
  headId,
  noteId,
  barId,
  partId,
  lineId,
  personId,
  operationId,
  type HeadId,
  type NoteId,
  type BarId,
  type PartId,
  type LineId,
  type PersonId,
  type OperationId,
} from './basis/ids.ts';
export { ok, refused, type Result } from './basis/result.ts';
export { fraction, ticksToQuarters, quartersToTicks, type Fraction } from './basis/fraction.ts';
export { type Issue, type IssueCode, type IssuePlace, type WithIssues } from './basis/issue.ts';
export { midiOf, nameOf, pitchOfMidi, type Pitch } from './basis/pitch.ts';
export { degreeOf, degreeText, keyAt, solfaOf, tonicOf } from './score/tonality.ts';
export { movedNotes } from './score/moved-notes.ts';
export {
  type Bar,
  type DynamicAccent,
  type DynamicLevel,
  type DynamicMark,
  type Fingerboard,
  type GraceNote,
  type HitKind,
  type Key,
  type Meter,
  type NoteSound,
  type Part,
  type Rest,
  type Score,
  type SoundingNote,
  type SourceVoice,
  type Technique,
  type TempoMark,
  type Tuning,
} from './score/score.ts';
export {
  noMarks,
  type Barre,
  type Bend,
  type ChordSymbol,
  type ClefMark,
  type HeldOver,
  type KeyChange,
  type Lyric,
  type Marks,
  type PartialCapo,
  type PrintedWords,
  type Slur,
  type SwingMark,
  type Tone,
  type Tuplet,
} from './score/marks.ts';
export { fingeringsOf, type Fingering } from './fingering/fingerings.ts';
export {
  barOf,
  excerptOfBars,
  ticksOfExcerpt,
  ticksOfPlace,
  type Excerpt,
  type Place,
  type TickRange,
} from './score/excerpt.ts';
export {
  type NoteValue,
  type WrittenBar,
  type WrittenClef,
  type WrittenEvent,
  type WrittenHead,
  type WrittenScore,
  type WrittenStaff,
} from './score/written.ts';
export {
  activeLines,
  emptySplit,
  linesOfNote,
  unmarked,
  type Dye,
  type Line,
  type LineFace,
  type LineRole,
  type Mark,
  type Split,
} from './operations/split.ts';
export { type OperationKind, type OperationRefusal, type SplitEffect, type Subject } from './operations/effect.ts';
export { applyOperation, effectOf, invertOperation, notesOfOperation, operationKinds } from './operations/registry.ts';
export { changeLine, markNotes } from './operations/make-operation.ts';
export { snapshotOf, splitFromSnapshot, type SplitSnapshot } from './operations/snapshot.ts';
export { isSameSubmission } from './operations/canonical.ts';
export { judge, type Case, type Verdict } from './operations/authority.ts';
export { type LostMark } from './operations/lost-marks.ts';
export { Replica, type RefusedSubmission, type ReplicaSetup, type UnsentWork } from './operations/replica.ts';
export {
  lineFaceSchema,
  lineSchema,
  noteChangeSchema,
  noteMarkSchema,
  operationSchema,
  submissionSchema,
  type NoteChange,
  type NoteMark,
  type Operation,
  type OrderedOperation,
  type Submission,
} from './operations/operation.ts';
export { type MeterChange, type SeparateOptions, type Separation, type VoiceNote } from './split/voice-note.ts';
export { separateVoices } from './split/separate-voices.ts';
export { proposalOperation, type LineReason, type Proposal, type ProposedMark } from './split/proposal.ts';
export { proposeSplit, splitProposer, type ProposeOptions, type SplitProposer } from './split/propose-split.ts';
export { isUnsure, unsureBelow } from './split/unsure.ts';
export { rolesOfLines, type RoleOfNotes } from './split/line-reasons.ts';
export { performLines, wholeOf, type PerformOptions } from './perform/perform-lines.ts';
export { type Human } from './perform/unevenness.ts';
export { sungAlong, type SingAlong } from './perform/sing-along.ts';
export {
  droneMidi,
  pitchRangeOf,
  singingMove,
  sungNotes,
  unmoved,
  voiceRanges,
  type PitchRange,
  type SingingMove,
  type VoiceKind,
} from './perform/singing-range.ts';
export { expressionSchema, plainExpression, type Expression } from './perform/expression.ts';
export { momentsAtTicks, samePlaceIn } from './perform/same-place.ts';
export { unfoldedRanges, unfoldedWithin } from './perform/unfolded.ts';
export { midiSongOf, type SongOptions } from './perform/timeline-midi.ts';
export { timelineOf, type Timeline, type TimelineBar, type TimelineNote } from './perform/timeline.ts';
export { countInBefore, type CountIn } from './perform/count-in.ts';
export { assumedTempo } from './score/assumed-tempo.ts';
export { secondsAtTicks, secondsOfRange, secondsPerTickAt, ticksAtSeconds } from './perform/time-map.ts';
export {
  type BarSwing,
  type Click,
  type ClickAccent,
  type EventVoice,
  type Instrument,
  type Performance,
  type PerformanceNote,
  type PerformedBar,
  type PitchPoint,
  type SoundEvent,
  type Stroke,
  type Subdivision,
  type TimeMap,
  type TimeSegment,
} from './perform/performance.ts';
export { type EngineMix } from './sound/desk.ts';
export { SoundEngine, type EngineReport } from './sound/engine.ts';
export { blockSamples, plainMix, type ChannelMix } from './sound/channel.ts';
export { linePowersOf, type LinePowers } from './sound/line-powers.ts';
export { Rise } from './sound/rise.ts';
export { integratedLoudness, loudnessOfBlocks } from './sound/loudness.ts';
export { type Audition } from './sound/auditions.ts';
export { silentClick, type ClickSetting } from './sound/clicks.ts';
export { type Pass, type PassLine, type Programme } from './sound/programme.ts';
export { type SecondsRange, type Stage } from './sound/stages.ts';
export {
  mixOfOnly,
  renderLines,
  renderPerformance,
  type RenderOptions,
  type StereoSound,
} from './sound/render-lines.ts';
export { renderedSeconds, type StemsOrder, type StemSource } from './sound/stems-order.ts';
export { limitedStems, type StemsPiece } from './sound/stems.ts';
export { UnlimitedStems, type StemsManner } from './sound/unlimited-stems.ts';
export {
  audibleLines,
  engineMixOf,
  instrumentsOf,
  plainSetting,
  settingsOfLines,
  type LineSetting,
  type MixedLine,
} from './sound/mixing.ts';
export { matchedGainDb } from './sound/match-loudness.ts';
export { SoundMeter, type SoundLevels } from './sound/sound-meter.ts';
export { mostWavFrames, samples24Of, wavBytesOf, wavHead } from './sound/wav.ts';
export {
  readNormalised,
  type ReadScore,
  type ScoreSource,
  type SoundingReading,
} from './formats/musicxml/read-score.ts';
export { limits as fileLimits } from './formats/limits.ts';
export { readScoreFile, type FileChoices, type FileSource, type ReadFile } from './formats/read-score-file.ts';
export { versesOf, wordsOfVerse } from './score/verses.ts';
export { mostOctaves, type SoundingChoice } from './formats/musicxml/sounding-choice.ts';
export { type SoundingEvidence } from './formats/musicxml/sounding-shift.ts';
export { type FileFormat } from './formats/sniff-format.ts';
export { type GridKind } from './formats/midi/beat-grid.ts';
export { type MidiSong } from './formats/midi/midi-song.ts';
export { midiToMusicXml, type MidiOptions } from './formats/midi/midi-to-musicxml.ts';
export { type GridRegion } from './formats/midi/quantise.ts';
export { writeMidi } from './formats/midi/write-midi.ts';
export { writeAbc, type WrittenAbc } from './formats/abc/write-abc.ts';
export { packScore } from './formats/container/pack-score.ts';
export {
  barIndexAt,
  beatOf,
  compareIds,
  compareInReadingOrder,
  inReadingOrder,
  type Beat,
} from './score/reading-order.ts';
export { lineNotes, type LineNote } from './lines/line-notes.ts';
export { doubtsOf, type Doubts } from './lines/doubts.ts';
export { reachOf, type LengthMode, type Reach } from './lines/lengths.ts';
export { checkLines, looseNotes, type LineFinding, type LineFindingCode } from './lines/checks.ts';
export { lineFactsOf, suggestListeningPath, type LineFacts, type SuggestedStep } from './lines/listening-path.ts';
export { linesWithNotes, writeForPlayers, type WrittenForPlayers } from './lines/write-for-players.ts';
export { writeOut, type WriteOutOptions, type WrittenOut } from './lines/write-out.ts';
export { fourVoices, oneGuitar, stringQuartet, type Ensemble, type Player } from './lines/ensembles.ts';
export { type RangeFinding } from './lines/ranges.ts';
export { recolouredOriginal } from './lines/recoloured-original.ts';
export { excerptOf, openDocument, type ExcerptOptions, type ScoreDocument } from './formats/musicxml/excerpt.ts';
export { writeWrittenScore } from './formats/musicxml-writer/write-written-score.ts';
export { sourceOfWrittenHead, writtenHeadId } from './formats/musicxml-writer/written-ids.ts';
export { factsOf, meterText, type PartFacts, type ScoreFacts } from './score/facts.ts';
export { arrangementOf, defaultArrangement, looksLikeGuitar } from './score/arrangement.ts';
export { likeBars, type BarLikeness, type LikeBar } from './form/like-bars.ts';
export { playingOrder, type UnfoldedBar } from './form/playing-order.ts';
