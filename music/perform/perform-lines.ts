import type { LineId, PartId } from '../basis/ids.ts';
import { activeLines, linesOfNote, type Line, type LineRole, type Split } from '../operations/split.ts';
import type { TickRange } from '../score/excerpt.ts';
import type { Score, Tuning } from '../score/score.ts';
import { adjustmentsOf, plainExpression, type Expression } from './expression.ts';
import { fermataStretches } from './fermatas.ts';
import { findingsOf } from './findings.ts';
import { glidesOf } from './glides.ts';
import { metricPlaces } from './metric-place.ts';
import { ornamentsOf } from './ornaments.ts';
import type { Instrument, Performance, PitchPoint, SoundEvent, TimeMap } from './performance.ts';
import { playedBarsOf, type Pace } from './played-bars.ts';
import { beginsNote, hasTechnique, playedNotesIn, type PlayedNote } from './played-notes.ts';
import { ringsOf } from './ringing.ts';
import { dynamicCurvesOf, strengthOf } from './strength.ts';
import { eventVoiceOf } from './strokes.ts';
import { swingStretches } from './swing.ts';
import { tempoWordStretches } from './tempo-words.ts';
import { clocksOf, timeMapOf } from './time-map.ts';
import { uneven, type Human } from './unevenness.ts';

/** What to perform. */
export interface PerformOptions {
  /** The stretch to play, in written order; the whole score by default. */
  readonly range?: TickRange;
  /** Several stretches one after the other, as repeats unfold; stands instead of `range`. */
  readonly ranges?: readonly TickRange[];
  /** The lines that get events; every active line by default. */
  readonly lines?: readonly LineId[];
  /** The parts whose notes sound; all by default. */
  readonly parts?: readonly PartId[];
  /** Instruments other than the lines' usual ones: `bass` for a bass line, else `steel`. */
  readonly instruments?: ReadonlyMap<LineId, Instrument>;
  /** The teacher's adjustments of loudness; as written by default. */
  readonly expression?: Expression;
  /** Whether swing marks are followed; they are by default. */
  readonly swing?: boolean;
  /** Whether fermatas are held; they are by default. */
  readonly fermatas?: boolean;
  /** Whether words such as *rit.* without a number change the tempo; they do by default. */
  readonly tempoWords?: boolean;
  /** Whether trills, mordents, turns and tremolos are played in their several strikes; they are by default. */
  readonly ornaments?: boolean;
  /** Small unevenness of time and strength, the same for the same seed; `amount` 1 is that of a steady player. None by default. */
  readonly human?: Human | null;
}

/** How hard a role is played beside the others, all else equal: the melody a little forward. Common practice, no source. */
const strengthOfRole: Readonly<Record<LineRole, number>> = {
  melody: 1.06,
  counter: 1,
  middle: 0.93,
  bass: 1,
  percussion: 0.96,
  accompaniment: 0.9,
};

/** A note that two lines share sounds a little softer on each, so that both together do not stick out. */
const sharedNoteStrength = 0.85;
const graceStrength = 0.8;
/** With fewer it is no guitar. */
const fewestStrings = 6;

/**
 * The lines of a split as timed events: seconds from tempo marks and words, swing and fermatas, strength from dynamics, accents,
 * meter and the teacher's expression; ringing, bends, slides and unevenness decided on all notes whatever is heard of
 * them later. A note on two lines has an event on each; a note on no active line has one without a line. What the score
 * left open is reported in `notes`.
 */
export function performLines(
  score: Score,
  split: Pick<Split, 'lines' | 'marks'>,
  options: PerformOptions = {},
): Performance {
  const ranges = options.ranges ?? [options.range ?? wholeOf(score)];
  const pace = paceOf(score, options);
  const timeMap = timeMapOf(score, ranges, [pace.swing, pace.fermatas, pace.tempoWords]);
  const active = activeLines(split);
  const chosen = options.lines === undefined ? active : active.filter((line) => options.lines?.includes(line.id));
  const { bars, clicks } = playedBarsOf(score, ranges, timeMap, pace);
  return {
    lines: chosen.map((line) => line.id),
    events: eventsOf(soundingOf(score, timeMap, ranges, options), { score, split, active, chosen, options }),
    lengthSeconds: timeMap.lengthSeconds,
    timeMap,
    bars,
    clicks,
    ranges,
    tuning: tuningOf(score, options.parts),
    notes: findingsOf(score, { active, asked: options.lines ?? [], ranges, ...pace }),
  };
}

function paceOf(score: Score, { swing = true, fermatas = true, tempoWords = true }: PerformOptions): Pace {
  return {
    swing: swing ? swingStretches(score) : [],
    fermatas: fermatas ? fermataStretches(score) : [],
    tempoWords: tempoWords ? tempoWordStretches(score) : [],
  };
}

/** The whole score in written order. */
export function wholeOf(score: Pick<Score, 'bars'>): TickRange {
  const last = score.bars.at(-1);
  return {
    startTicks: score.bars[0]?.onsetTicks ?? 0,
    endTicks: last === undefined ? 0 : last.onsetTicks + last.lengthTicks,
  };
}

/** The tuning of the first guitar that is heard. */
function tuningOf(score: Score, parts: readonly PartId[] | undefined): Tuning | null {
  const guitar = score.parts.find(
    ({ id, tuning }) => tuning !== null && tuning.length >= fewestStrings && (parts?.includes(id) ?? true),
  );
  return guitar?.tuning?.map((midi) => midi + guitar.capoFret) ?? null;
}

/** A playing of a note with everything that all notes together decide. */
interface Sounding {
  readonly note: PlayedNote;
  readonly ringSeconds: number;
  readonly glide: readonly PitchPoint[];
  readonly isSlidInto: boolean;
}

function partsOnly(score: Score, parts: readonly PartId[] | undefined): Score {
  if (parts === undefined) return score;
  return { ...score, notes: score.notes.filter((note) => note.voices.some((voice) => parts.includes(voice.part))) };
}

function soundingOf(
  score: Score,
  timeMap: TimeMap,
  ranges: readonly TickRange[],
  { parts, ornaments = true, human = null }: PerformOptions,
): readonly Sounding[] {
  const heard = partsOnly(score, parts);
  const strikesOf = ornaments ? ornamentsOf(heard) : (note: PlayedNote) => [note];
  const notes = clocksOf(ranges, timeMap)
    .flatMap(({ range, secondsAt }, playing) => {
      const even = playedNotesIn(heard, range, secondsAt).flatMap(strikesOf);
      return human === null ? even : uneven(even, playing, human);
    })
    .sort((a, b) => a.onsetSeconds - b.onsetSeconds);
  const rings = ringsOf(notes);
  const glides = glidesOf(score, notes, rings);
  return notes.map((note, index) => ({
    note,
    ringSeconds: rings[index] ?? 0,
    glide: glides.points[index] ?? [],
    isSlidInto: glides.arrivals.has(note),
  }));
}

interface Company {
  readonly score: Score;
  readonly split: Pick<Split, 'marks'>;
  readonly active: readonly Line[];
  readonly chosen: readonly Line[];
  readonly options: PerformOptions;
}

function eventsOf(sounding: readonly Sounding[], company: Company): readonly SoundEvent[] {
  const { score, split, active, chosen, options } = company;
  const strengthIn = strengths(score, options.expression ?? plainExpression);
  const instruments = options.instruments ?? new Map<LineId, Instrument>();
  const events = sounding.flatMap(({ note, ringSeconds, glide, isSlidInto }) => {
    const marked = linesOfNote(split, note.main.id);
    const owners = active.filter((line) => marked.includes(line.id));
    const lines = owners.length === 0 ? [null] : owners.filter((line) => chosen.includes(line));
    return lines.map((line) => ({
      note: note.id,
      line: line?.id ?? null,
      onsetTicks: note.onsetTicks,
      onsetSeconds: note.onsetSeconds,
      ringSeconds,
      voice: eventVoiceOf(note, instrumentOf(line, instruments), isSlidInto),
      glide,
      strength: strengthIn(note, line, owners.length > 1),
      string: note.fingerboard?.string ?? null,
      fret: note.fingerboard?.fret ?? null,
    }));
  });
  return sorted(events, chosen);
}

const instrumentOf = (line: Line | null, chosen: ReadonlyMap<LineId, Instrument>): Instrument =>
  line === null ? 'steel' : (chosen.get(line.id) ?? (line.role === 'bass' ? 'bass' : 'steel'));

/** How hard each playing of a note is played on a line: the score's wish, the role of the line, and what the teacher made of both. */
function strengths(
  score: Score,
  expression: Expression,
): (note: PlayedNote, line: Line | null, isShared: boolean) => number {
  const curveOf = dynamicCurvesOf(score);
  const placeOf = metricPlaces(score);
  const adjustmentOf = adjustmentsOf(score, expression);
  return (note, line, isShared) => {
    const { main, struckTicks: ticks, isGrace } = note;
    const { factor, ...shares } = adjustmentOf(line?.id ?? null, main.bar);
    const techniques = main.techniques.filter((technique) => hasTechnique(note, technique));
    const place = beginsNote(note) ? placeOf(ticks, main.bar) : 'between';
    const written = strengthOf(curveOf(main), { ticks, techniques, place, ...shares });
    const owned = (isGrace ? graceStrength : 1) * (isShared ? sharedNoteStrength : 1) * (written + note.addedStrength);
    return Math.min(1, Math.max(0, owned * (line === null ? 1 : strengthOfRole[line.role]) * factor));
  };
}

function sorted(events: readonly SoundEvent[], lines: readonly Line[]): readonly SoundEvent[] {
  const place = new Map(lines.map((line, index) => [line.id, index]));
  const order = (event: SoundEvent): number =>
    event.line === null ? lines.length : (place.get(event.line) ?? lines.length);
  const height = (event: SoundEvent): number => (event.voice.kind === 'pitched' ? event.voice.midi : 0);
  return [...events].sort((a, b) => a.onsetSeconds - b.onsetSeconds || order(a) - order(b) || height(a) - height(b));
}
