import { countInBefore } from '../perform/count-in.ts';
import type { Click, Performance, SoundEvent } from '../perform/performance.ts';
import { clicksWithin } from './clicks.ts';
import { gainOfDb } from './level.ts';
import type { Pass, PassLine, Programme } from './programme.ts';

/** A stretch of a performance. **Units** seconds at the written tempo, from the performance's start. */
export interface SecondsRange {
  readonly startSeconds: number;
  readonly endSeconds: number;
}

/** One stretch of time that the transport runs through: which events sound in it, how loud, with which clicks. */
export interface Stage extends SecondsRange {
  readonly kind: Pass['kind'];
  /** The pass of the programme that it belongs to; −1 for the count-in before playing. */
  readonly pass: number;
  /** The events from `firstEvent` up to `eventEnd` are due. */
  readonly firstEvent: number;
  readonly eventEnd: number;
  /** A factor per line and, last, for notes on no line; null leaves all as they are. */
  readonly gains: readonly number[] | null;
  readonly clicks: readonly Click[];
  /** Whether its beats click whatever the setting, or as it is set. */
  readonly clicking: 'always' | 'asSet';
}

/** The stages of one playing and where it goes on after the last; null where it ends. */
export interface StagePlan {
  readonly stages: readonly Stage[];
  readonly repeatFrom: number | null;
}

/** What is to be played. */
export interface PlayOrder {
  readonly performance: Performance;
  /** The stretch that repeats; null plays to the end once. */
  readonly loop: SecondsRange | null;
  readonly programme: Programme | null;
  /** Where to begin; a programme begins at its stretch's start. */
  readonly fromSeconds: number;
  readonly countInBars: number;
}

const near = 1e-9;
const shortestFirstNote = 0.6;
const longestFirstNote = 2.4;

const factorOf = (levelDb: number): number => (levelDb <= -60 ? 0 : gainOfDb(levelDb));
const lasts = (stage: Stage): boolean => stage.endSeconds - stage.startSeconds > 1e-3;

function firstEventFrom(events: readonly SoundEvent[], seconds: number): number {
  let low = 0;
  let high = events.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((events[middle] as SoundEvent).onsetSeconds < seconds - near) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** The stages of a playing; none where nothing lasts. */
export function planStages(order: PlayOrder): StagePlan {
  const range = order.loop ?? { startSeconds: 0, endSeconds: order.performance.lengthSeconds };
  const isInside = order.fromSeconds >= range.startSeconds && order.fromSeconds < range.endSeconds - near;
  const from = order.programme === null && isInside ? order.fromSeconds : range.startSeconds;
  const lead =
    order.countInBars > 0 ? [countInStage(order.performance, from, order.countInBars, -1)].filter(lasts) : [];
  return order.programme === null
    ? planMusic(order, range, from, lead)
    : planPasses(order.performance, order.programme, range, lead);
}

function planMusic(order: PlayOrder, range: SecondsRange, from: number, lead: readonly Stage[]): StagePlan {
  const first = musicStage(order.performance, { ...range, startSeconds: from }, 0);
  if (!lasts(first)) return { stages: [], repeatFrom: null };
  if (order.loop === null) return { stages: [...lead, first], repeatFrom: null };
  if (from === range.startSeconds) return { stages: [...lead, first], repeatFrom: lead.length };
  return { stages: [...lead, first, musicStage(order.performance, range, 0)], repeatFrom: lead.length + 1 };
}

function planPasses(
  performance: Performance,
  programme: Programme,
  range: SecondsRange,
  lead: readonly Stage[],
): StagePlan {
  const passes = programme.passes.map((pass, index) => stageOfPass(performance, range, pass, index)).filter(lasts);
  if (passes.length === 0) return { stages: [], repeatFrom: null };
  const repeats = { stop: null, again: lead.length, stay: lead.length + passes.length - 1 } as const;
  return { stages: [...lead, ...passes], repeatFrom: repeats[programme.afterLast] };
}

function musicStage(performance: Performance, range: SecondsRange, pass: number): Stage {
  const { events, clicks } = performance;
  return {
    ...range,
    kind: 'play',
    pass,
    gains: null,
    clicking: 'asSet',
    firstEvent: firstEventFrom(events, range.startSeconds),
    eventEnd: firstEventFrom(events, range.endSeconds),
    clicks: clicksWithin(clicks, range.startSeconds, range.endSeconds),
  };
}

function countInStage(performance: Performance, atSeconds: number, bars: number, pass: number): Stage {
  const countIn = countInBefore(performance, atSeconds, bars);
  return {
    kind: 'countIn',
    pass,
    gains: null,
    clicking: 'always',
    firstEvent: 0,
    eventEnd: 0,
    startSeconds: atSeconds - countIn.lengthSeconds,
    endSeconds: atSeconds,
    clicks: countIn.clicks.map((click) => ({ ...click, atSeconds: atSeconds + click.atSeconds })),
  };
}

function stageOfPass(performance: Performance, range: SecondsRange, pass: Pass, index: number): Stage {
  const music = musicStage(performance, range, index);
  switch (pass.kind) {
    case 'play':
      return { ...music, gains: pass.lines === 'all' ? null : gainsOf(performance, pass.lines) };
    case 'silence':
      return {
        ...music,
        kind: 'silence',
        eventEnd: music.firstEvent,
        clicking: pass.withClick ? 'always' : 'asSet',
        clicks: pass.withClick ? music.clicks : [],
      };
    case 'countIn':
      return countInStage(performance, range.startSeconds, pass.bars, index);
    case 'firstNote':
      return firstNoteStage(performance, music, pass);
  }
}

function gainsOf(performance: Performance, lines: readonly PassLine[]): readonly number[] {
  const gains = performance.lines.map((line) => {
    const named = lines.find((each) => each.line === line);
    return named === undefined ? 0 : factorOf(named.levelDb);
  });
  return [...gains, 0];
}

/** The first note sounds at the stage's start and is given its own length, within reason. */
function firstNoteStage(performance: Performance, music: Stage, pass: Extract<Pass, { kind: 'firstNote' }>): Stage {
  const { events } = performance;
  let index = music.firstEvent;
  while (index < music.eventEnd && events[index]?.line !== pass.line) index += 1;
  const event = events[index];
  const start = index < music.eventEnd && event !== undefined ? event.onsetSeconds : music.startSeconds;
  const length = Math.min(longestFirstNote, Math.max(shortestFirstNote, event?.ringSeconds ?? 0));
  return {
    ...music,
    kind: 'firstNote',
    clicks: [],
    startSeconds: start,
    endSeconds: start + length,
    gains: gainsOf(performance, [{ line: pass.line, levelDb: 0 }]),
    firstEvent: index,
    eventEnd: Math.min(index + 1, music.eventEnd),
  };
}
