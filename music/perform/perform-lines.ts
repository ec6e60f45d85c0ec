import type { LineId, PartId } from '../basis/ids.ts';
import type { TickRange } from '../score/excerpt.ts';
import type { Bar, Score } from '../score/score.ts';
import { activeLines, linesOfNote, type Line, type LineRole, type Split } from '../operations/split.ts';
import { beatsOf, beatTicksOf, phasesOf, playedBarsOf, segmentsByRange } from './beats.ts';
import type { Expression } from './expression.ts';
import type { EventVoice, Instrument, Performance, PerformanceNote, SoundEvent, Stroke } from './performance.ts';
import { playedNotesIn, type PlayedNote } from './played-notes.ts';
import { ringsOf } from './ringing.ts';
import { dynamicCurveOf, strengthOf, type DynamicCurve, type MetricPlace } from './strength.ts';
import { assumedTempo, timeMapOf } from './time-map.ts';

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
  /** Small unevenness of time and strength, the same for the same seed; `amount` 1 is that of a steady player. None by default. */
  readonly human?: Human | null;
}

/** How uneven a playing is. **Units** `amount` 0 to 1. */
export interface Human {
  readonly seed: number;
  readonly amount: number;
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

/**
 * The lines of a split as timed events: seconds from the tempo marks, strength from dynamics, accents and meter,
 * ringing decided on all notes whatever is heard of them later. A note on two lines has an event on each; a note
 * on no active line has one without a line. What the score left open is reported in `notes`.
 */
export function performLines(
  score: Score,
  split: Pick<Split, 'lines' | 'marks'>,
  options: PerformOptions = {},
): Performance {
  const ranges = options.ranges ?? [options.range ?? wholeOf(score)];
  const timeMap = timeMapOf(score, ranges);
  const active = activeLines(split);
  const chosen = options.lines === undefined ? active : active.filter((line) => options.lines?.includes(line.id));
  const played = segmentsByRange(ranges, timeMap)
    .flatMap(({ range, secondsAt }) => playedNotesIn(partsOnly(score, options.parts), range, secondsAt))
    .sort((a, b) => a.onsetSeconds - b.onsetSeconds);
  const rings = ringsOf(played);
  const curve = dynamicCurveOf(score);
  const placeOf = metricPlaces(score);
  const context = {
    split,
    active,
    chosen,
    curve,
    placeOf,
    instruments: options.instruments ?? new Map<LineId, Instrument>(),
  };
  const events = played.flatMap((note, index) => eventsOf(note, rings[index] ?? 0, context));
  const bars = playedBarsOf(score, ranges, timeMap);
  return {
    lines: chosen.map((line) => line.id),
    events: sorted(events, chosen),
    lengthSeconds: timeMap.lengthSeconds,
    timeMap,
    bars,
    beats: beatsOf(bars, timeMap),
    ranges,
    notes: findingsOf(score, active, options.lines ?? []),
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

interface Context {
  readonly split: Pick<Split, 'marks'>;
  readonly active: readonly Line[];
  readonly chosen: readonly Line[];
  readonly curve: DynamicCurve;
  readonly placeOf: (ticks: number, bar: Bar['id']) => MetricPlace;
  readonly instruments: ReadonlyMap<LineId, Instrument>;
}

function partsOnly(score: Score, parts: readonly PartId[] | undefined): Score {
  if (parts === undefined) return score;
  return { ...score, notes: score.notes.filter((note) => note.voices.some((voice) => parts.includes(voice.part))) };
}

function eventsOf(note: PlayedNote, ringSeconds: number, context: Context): readonly SoundEvent[] {
  const marked = linesOfNote(context.split, note.main.id);
  const owners = context.active.filter((line) => marked.includes(line.id));
  const techniques = note.isGrace ? [] : note.main.techniques;
  const full = strengthOf(context.curve, note.onsetTicks, techniques, context.placeOf(note.onsetTicks, note.main.bar));
  const strength = (note.isGrace ? 0.8 : 1) * (owners.length > 1 ? sharedNoteStrength : 1) * full;
  const lines = owners.length === 0 ? [null] : owners.filter((line) => context.chosen.includes(line));
  return lines.map((line) => ({
    note: note.id,
    line: line?.id ?? null,
    onsetTicks: note.onsetTicks,
    onsetSeconds: note.onsetSeconds,
    ringSeconds,
    voice: voiceOf(note, instrumentOf(line, context.instruments)),
    glide: [],
    strength: Math.min(1, strength * (line === null ? 1 : strengthOfRole[line.role])),
    string: note.fingerboard?.string ?? null,
  }));
}

const instrumentOf = (line: Line | null, chosen: ReadonlyMap<LineId, Instrument>): Instrument =>
  line === null ? 'steel' : (chosen.get(line.id) ?? (line.role === 'bass' ? 'bass' : 'steel'));

function voiceOf(note: PlayedNote, instrument: Instrument): EventVoice {
  if (note.sound.kind === 'hit') return { kind: 'hit', hit: note.sound.hit };
  return { kind: 'pitched', instrument, midi: note.sound.soundingMidi, stroke: strokeOf(note) };
}

function strokeOf(note: PlayedNote): Stroke {
  if (note.isGrace) return 'pluck';
  const { techniques } = note.main;
  if (techniques.includes('palmMute')) return 'palmMute';
  if (techniques.includes('naturalHarmonic') || techniques.includes('artificialHarmonic')) return 'harmonic';
  return techniques.includes('hammerOn') || techniques.includes('pullOff') ? 'legato' : 'pluck';
}

function metricPlaces(score: Score): Context['placeOf'] {
  const phases = phasesOf(score);
  const bars = new Map(score.bars.map((bar) => [bar.id, bar]));
  return (ticks, id) => {
    const bar = bars.get(id);
    if (bar === undefined) return 'between';
    const within = ticks - bar.onsetTicks + (phases.get(bar) ?? 0);
    if (within === 0) return 'bar';
    return beatTicksOf(bar.meter, score.ticksPerQuarter).includes(within) ? 'beat' : 'between';
  };
}

function sorted(events: readonly SoundEvent[], lines: readonly Line[]): readonly SoundEvent[] {
  const place = new Map(lines.map((line, index) => [line.id, index]));
  const order = (event: SoundEvent): number =>
    event.line === null ? lines.length : (place.get(event.line) ?? lines.length);
  const height = (event: SoundEvent): number => (event.voice.kind === 'pitched' ? event.voice.midi : 0);
  return [...events].sort((a, b) => a.onsetSeconds - b.onsetSeconds || order(a) - order(b) || height(a) - height(b));
}

function findingsOf(score: Score, active: readonly Line[], asked: readonly LineId[]): readonly PerformanceNote[] {
  const findings: PerformanceNote[] = [];
  if (!score.tempos.some((mark) => mark.quartersPerMinute > 0)) {
    findings.push({
      code: 'tempo-assumed',
      detail: `The score names no tempo; it is played at ${assumedTempo} quarter notes a minute.`,
    });
  }
  const unknown = asked.filter((id) => !active.some((line) => line.id === id));
  if (unknown.length > 0)
    findings.push({ code: 'lines-unknown', detail: `No such line, so it is not played: ${unknown.join(', ')}.` });
  return findings;
}
