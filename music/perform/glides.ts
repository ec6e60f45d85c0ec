import type { NoteId } from '../basis/ids.ts';
import type { Bend } from '../score/marks.ts';
import type { Score } from '../score/score.ts';
import type { PitchPoint } from './performance.ts';
import { endsNote, groupedBy, hasTechnique, type PlayedNote } from './played-notes.ts';
import { slideSourcesOf } from './slide-sources.ts';

/** How long a finger takes to bend a string and to slide, at the most, and what share of its time. Common practice, no source. */
const bendSeconds = 0.22;
const bendShare = 0.6;
const slideSeconds = 0.16;
const slideShare = 0.5;
/** How long a string sounds at its fret's pitch before it is bent. */
const pluckSeconds = 0.03;
/** A slide from or to nowhere. **Units** semitones, seconds. Common practice, no source. */
const slideInSemitones = 2;
const slideOutSemitones = 3;
const aimlessSeconds = 0.12;
const aimlessShare = 0.4;
/** A vibrato waits until its note has stood, and then swings to either side. **Units** seconds, cents. From memory, no source. */
const steadySeconds = 0.16;
const swingSeconds = 0.1;
const swingCents = 12;
const centsPerSemitone = 100;
const nearSeconds = 1e-6;
/** A bend that does not say how far is a whole tone. Common practice, no source. */
const unmarkedBend: Pick<Bend, 'kind' | 'semitones'> = { kind: 'bend', semitones: 2 };

interface Move {
  readonly startSeconds: number;
  readonly endSeconds: number;
  readonly cents: number;
}

interface Course {
  readonly startCents: number;
  readonly moves: readonly Move[];
}

type Stage = Pick<Bend, 'kind' | 'semitones'>;

const endOf = ({ moves, startCents }: Course): number => moves.at(-1)?.cents ?? startCents;

/** Where a stage of a bend leads. A release says how far it goes back, or where it arrives. **Source** MusicXML 4.0, bend-alter: a release has a negative value, not zero. */
function goalOf({ kind, semitones }: Stage, fromCents: number): number {
  const cents = semitones * centsPerSemitone;
  if (kind !== 'release') return Math.abs(cents);
  const goal = cents < 0 ? fromCents + cents : cents;
  return goal >= fromCents ? 0 : Math.max(0, goal);
}

/** The stages of a bend share the note's time evenly; each move begins where its share does. */
function bendCourse(stages: readonly Stage[], seconds: number): Course {
  const [first] = stages;
  const isBentBefore = first?.kind === 'preBend';
  const moving = isBentBefore ? stages.slice(1) : stages;
  const slot = seconds / (isBentBefore ? moving.length + 1 : moving.length);
  let course: Course = { startCents: isBentBefore ? goalOf(first, 0) : 0, moves: [] };
  for (const [index, stage] of moving.entries()) {
    const startSeconds = (isBentBefore ? index + 1 : index) * slot + Math.min(pluckSeconds, slot / 10);
    const endSeconds = startSeconds + Math.min(bendSeconds, slot * bendShare);
    const cents = goalOf(stage, endOf(course));
    course = { ...course, moves: [...course.moves, { startSeconds, endSeconds, cents }] };
  }
  return course;
}

/** When a slide begins that arrives at a moment. */
const slideStart = (arrivalSeconds: number): number =>
  arrivalSeconds - Math.min(slideSeconds, arrivalSeconds * slideShare);

/** A slide onwards: the string leaves late and arrives as the next note begins. */
function withSlideTo(course: Course, cents: number, arrivalSeconds: number): Course {
  const earliest = course.moves.at(-1)?.endSeconds ?? 0;
  const startSeconds = Math.max(Math.min(earliest, arrivalSeconds), slideStart(arrivalSeconds));
  return { ...course, moves: [...course.moves, { startSeconds, endSeconds: arrivalSeconds, cents }] };
}

/** How far below its pitch a note on the fingerboard can begin or end; open strings cannot. **Units** semitones. */
function roomBelow({ fingerboard }: PlayedNote, wanted: number): number {
  return fingerboard === null ? wanted : Math.max(0, Math.min(wanted, fingerboard.fret - 1));
}

/** Where a slide from nowhere begins. **Units** semitones from the note's pitch. */
function originOf(note: PlayedNote): number {
  if (hasTechnique(note, 'slideInFromAbove')) return slideInSemitones;
  return hasTechnique(note, 'slideIn') ? -roomBelow(note, slideInSemitones) : 0;
}

/** Where a slide to nowhere ends. **Units** semitones from where it leaves. */
function goalAfter(note: PlayedNote): number {
  if (hasTechnique(note, 'slideOutUpwards')) return slideOutSemitones;
  return hasTechnique(note, 'slideOut') ? -roomBelow(note, slideOutSemitones) : 0;
}

function withSlideIn(course: Course, origin: number, seconds: number): Course {
  if (origin === 0 || course.startCents !== 0) return course;
  const endSeconds = Math.min(aimlessSeconds, seconds * aimlessShare);
  const moves = course.moves.filter((move) => move.startSeconds >= endSeconds);
  return { startCents: origin * centsPerSemitone, moves: [{ startSeconds: 0, endSeconds, cents: 0 }, ...moves] };
}

/** A vibrato from where the pitch has come to rest, as many whole swings as there is time for. */
function withVibrato(course: Course, untilSeconds: number): Course {
  const fromSeconds = Math.max(steadySeconds, course.moves.at(-1)?.endSeconds ?? 0);
  const count = Math.floor((untilSeconds - fromSeconds) / swingSeconds);
  if (count < 2) return course;
  const rest = endOf(course);
  const swings = Array.from({ length: count }, (_, index): Move => {
    const away = index === count - 1 ? 0 : index % 2 === 0 ? swingCents : -swingCents;
    const startSeconds = fromSeconds + index * swingSeconds;
    return { startSeconds, endSeconds: startSeconds + swingSeconds, cents: rest + away };
  });
  return { ...course, moves: [...course.moves, ...swings] };
}

const isOpen = ({ fingerboard }: PlayedNote): boolean => fingerboard?.fret === 0;

function pointsOf({ startCents, moves }: Course): readonly PitchPoint[] {
  if (moves.length === 0 && startCents === 0) return [];
  const points: PitchPoint[] = [{ atSeconds: 0, cents: startCents }];
  for (const { startSeconds, endSeconds, cents } of moves) {
    const before = points.at(-1);
    if (before === undefined || cents === before.cents) continue;
    if (startSeconds > before.atSeconds + nearSeconds) points.push({ atSeconds: startSeconds, cents: before.cents });
    points.push({ atSeconds: Math.max(endSeconds, startSeconds), cents });
  }
  return points;
}

function stagesOf(note: PlayedNote, bends: ReadonlyMap<NoteId, readonly Bend[]>): readonly Stage[] {
  if (!endsNote(note)) return [];
  return bends.get(note.id) ?? (hasTechnique(note, 'bend') ? [unmarkedBend] : []);
}

interface Onward {
  readonly cents: number;
  readonly arrivalSeconds: number;
}

function courseOf(note: PlayedNote, ringSeconds: number, stages: readonly Stage[], onward: Onward | null): Course {
  const seconds = Math.min(ringSeconds, note.endSeconds - note.onsetSeconds);
  const goal = goalAfter(note);
  let course = withSlideIn(bendCourse(stages, seconds), originOf(note), seconds);
  const arrival = onward === null ? ringSeconds : Math.min(onward.arrivalSeconds, ringSeconds);
  const isLeft = onward !== null || goal !== 0;
  if (hasTechnique(note, 'vibrato') && !isOpen(note))
    course = withVibrato(course, isLeft ? slideStart(arrival) : seconds);
  if (onward !== null) return withSlideTo(course, onward.cents, arrival);
  return goal === 0 ? course : withSlideTo(course, endOf(course) + goal * centsPerSemitone, arrival);
}

/** How pitches move, and which notes are slid into rather than struck. */
export interface Glides {
  /** In the notes' order. */
  readonly points: readonly (readonly PitchPoint[])[];
  readonly arrivals: ReadonlySet<PlayedNote>;
}

/** How the pitch of each of some notes, sorted by onset, moves: bends, vibrato, slides from note to note, slides from and to nowhere. Hits stay as they are. */
export function glidesOf(score: Pick<Score, 'bends'>, notes: readonly PlayedNote[], rings: readonly number[]): Glides {
  const bends = groupedBy(score.bends, (bend) => bend.note);
  const sources = slideSourcesOf(notes);
  const onwards = new Map<PlayedNote, Onward>();
  for (const [goal, source] of sources) {
    if (goal.sound.kind !== 'pitched' || source.sound.kind !== 'pitched') continue;
    const cents = (goal.sound.soundingMidi - source.sound.soundingMidi) * centsPerSemitone;
    onwards.set(source, { cents, arrivalSeconds: goal.onsetSeconds - source.onsetSeconds });
  }
  const points = notes.map((note, index) =>
    note.sound.kind === 'hit'
      ? []
      : pointsOf(courseOf(note, rings[index] ?? 0, stagesOf(note, bends), onwards.get(note) ?? null)),
  );
  return { points, arrivals: new Set(sources.keys()) };
}
