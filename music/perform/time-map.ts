import type { TickRange } from '../score/excerpt.ts';
import { assumedTempo } from '../score/assumed-tempo.ts';
import type { Score, TempoMark } from '../score/score.ts';
import type { TimeMap, TimeSegment } from './performance.ts';
import { placeOfLast } from './sorted.ts';

/** Written ticks that last longer (above 1) or shorter (below 1) than the tempo says; `factor` is above 0. */
export interface Stretch extends TickRange {
  readonly factor: number;
}

interface Piece {
  readonly startTicks: number;
  readonly endTicks: number;
  readonly secondsPerTick: number;
  readonly tempoSecondsPerTick: number;
}

/** What holds from each of some moments on, asked for in rising order: a walk that never goes back. */
function walkOf<Item extends { readonly startTicks: number }>(items: readonly Item[]): (ticks: number) => Item | null {
  let index = -1;
  return (ticks) => {
    while ((items[index + 1]?.startTicks ?? Infinity) <= ticks) index += 1;
    return items[index] ?? null;
  };
}

function tempoWalk(tempos: readonly TempoMark[]): (ticks: number) => number {
  const sounding = tempos
    .filter((mark) => mark.quartersPerMinute > 0)
    .map((mark) => ({ startTicks: mark.onsetTicks, quartersPerMinute: mark.quartersPerMinute }))
    .sort((a, b) => a.startTicks - b.startTicks);
  const first = sounding[0]?.quartersPerMinute ?? assumedTempo;
  const at = walkOf(sounding);
  return (ticks) => at(ticks)?.quartersPerMinute ?? first;
}

function factorWalk(stretches: readonly Stretch[]): (ticks: number) => number {
  const at = walkOf([...stretches].sort((a, b) => a.startTicks - b.startTicks));
  return (ticks) => {
    const stretch = at(ticks);
    return stretch !== null && ticks < stretch.endTicks ? stretch.factor : 1;
  };
}

/** The written music from the first moment that is played to the last, cut wherever it gets faster or slower. */
function piecesOf(
  score: Pick<Score, 'tempos' | 'ticksPerQuarter'>,
  ranges: readonly TickRange[],
  layers: readonly (readonly Stretch[])[],
): readonly Piece[] {
  const cuts = [
    ...ranges.flatMap((range) => [range.startTicks, range.endTicks]),
    ...score.tempos.map((mark) => mark.onsetTicks),
    ...layers.flatMap((stretches) => stretches.flatMap((stretch) => [stretch.startTicks, stretch.endTicks])),
  ];
  const places = [...new Set(cuts)].sort((a, b) => a - b);
  const tempoAt = tempoWalk(score.tempos);
  const factors = layers.map(factorWalk);
  return places.slice(0, -1).map((startTicks, index) => {
    const tempoSecondsPerTick = 60 / tempoAt(startTicks) / score.ticksPerQuarter;
    const secondsPerTick = factors.reduce((seconds, factorAt) => seconds * factorAt(startTicks), tempoSecondsPerTick);
    return { startTicks, endTicks: places[index + 1] ?? startTicks, secondsPerTick, tempoSecondsPerTick };
  });
}

const startTicksOf = ({ startTicks }: { readonly startTicks: number }): number => startTicks;

/**
 * The time map of stretches played one after the other: continuous, and rising within each stretch.
 * A tempo holds from its mark to the next; the first one holds from the beginning. In each layer, whose stretches
 * do not overlap, ticks are lengthened or shortened by a factor.
 */
export function timeMapOf(
  score: Pick<Score, 'tempos' | 'ticksPerQuarter'>,
  ranges: readonly TickRange[],
  layers: readonly (readonly Stretch[])[] = [],
): TimeMap {
  const pieces = piecesOf(score, ranges, layers);
  const segments: TimeSegment[] = [];
  let seconds = 0;
  for (const range of ranges) {
    let place = placeOfLast(pieces, startTicksOf, range.startTicks);
    for (
      let piece = pieces[place];
      piece !== undefined && piece.startTicks < range.endTicks;
      place += 1, piece = pieces[place]
    ) {
      segments.push({ ...piece, startSeconds: seconds });
      seconds += (piece.endTicks - piece.startTicks) * piece.secondsPerTick;
    }
  }
  return { segments, lengthSeconds: seconds };
}

const secondsIn = (segment: TimeSegment, ticks: number): number =>
  segment.startSeconds + (ticks - segment.startTicks) * segment.secondsPerTick;

/** Seconds at ticks within one playing of a stretch; beyond its end its last tempo goes on. */
export type Clock = (ticks: number) => number;

/** For each stretch of a time map its own clock, in order of playing. */
export function clocksOf(
  ranges: readonly TickRange[],
  map: TimeMap,
): readonly { readonly range: TickRange; readonly secondsAt: Clock }[] {
  let next = 0;
  return ranges.map((range) => {
    if (range.endTicks <= range.startTicks) return { range, secondsAt: () => 0 };
    const first = next;
    while (next < map.segments.length && map.segments[next]?.endTicks !== range.endTicks) next += 1;
    next += 1;
    const own = map.segments.slice(first, next);
    const secondsAt = (ticks: number): number => {
      const segment = own[placeOfLast(own, startTicksOf, ticks)];
      if (segment === undefined) return 0;
      const beyond = Math.max(0, ticks - segment.endTicks);
      return secondsIn(segment, ticks - beyond) + beyond * segment.tempoSecondsPerTick;
    };
    return { range, secondsAt };
  });
}

/** When these written ticks are first played; the nearest end of the performance where they are not played at all. **Units** seconds. */
export function secondsAtTicks(map: TimeMap, ticks: number): number {
  const within = map.segments.find((segment) => ticks >= segment.startTicks && ticks < segment.endTicks);
  if (within !== undefined) return secondsIn(within, ticks);
  const ending = map.segments.find((segment) => ticks === segment.endTicks);
  if (ending !== undefined) return secondsIn(ending, ticks);
  const earliest = map.segments.reduce((least, segment) => Math.min(least, segment.startTicks), Infinity);
  return ticks < earliest ? 0 : map.lengthSeconds;
}

/** Runs of segments that are played straight on, as first and last. */
function runsOf({ segments }: TimeMap): readonly { readonly first: TimeSegment; readonly last: TimeSegment }[] {
  const runs: { first: TimeSegment; last: TimeSegment }[] = [];
  for (const segment of segments) {
    const run = runs.at(-1);
    if (run !== undefined && run.last.endTicks === segment.startTicks) run.last = segment;
    else runs.push({ first: segment, last: segment });
  }
  return runs;
}

/** The first playing of a stretch that goes straight through it, without a repeat or a jump; undefined where there is none. */
function straightPass(map: TimeMap, { startTicks, endTicks }: TickRange): SecondsSpan | undefined {
  const run = runsOf(map).find(({ first, last }) => first.startTicks <= startTicks && last.endTicks >= endTicks);
  if (run === undefined) return undefined;
  const own = map.segments.slice(map.segments.indexOf(run.first), map.segments.indexOf(run.last) + 1);
  const start = own.find((segment) => startTicks < segment.endTicks);
  const end = own.find((segment) => endTicks <= segment.endTicks);
  return start === undefined || end === undefined
    ? undefined
    : { startSeconds: secondsIn(start, startTicks), endSeconds: secondsIn(end, endTicks) };
}

interface SecondsSpan {
  readonly startSeconds: number;
  readonly endSeconds: number;
}

/**
 * When a stretch of written ticks is first played straight through; where repeats and jumps never allow that, from its start
 * as `secondsAtTicks` finds it to the next time that its end is reached. **Units** seconds.
 */
export function secondsOfRange(map: TimeMap, range: TickRange): SecondsSpan {
  const straight = straightPass(map, range);
  if (straight !== undefined) return straight;
  const startSeconds = secondsAtTicks(map, range.startTicks);
  const ending = map.segments.find(
    (segment) =>
      range.endTicks > segment.startTicks &&
      range.endTicks <= segment.endTicks &&
      secondsIn(segment, range.endTicks) > startSeconds,
  );
  return { startSeconds, endSeconds: ending === undefined ? map.lengthSeconds : secondsIn(ending, range.endTicks) };
}

/** The segment that plays at this moment; the first or last one outside the performance. */
const segmentAt = ({ segments }: TimeMap, seconds: number): TimeSegment | undefined =>
  segments[placeOfLast(segments, ({ startSeconds }) => startSeconds, seconds)];

/** The written ticks that are played at this moment, not rounded; held at the ends of the performance. */
export function ticksAtSeconds(map: TimeMap, seconds: number): number {
  const segment = segmentAt(map, seconds);
  if (segment === undefined) return 0;
  const ticks = segment.startTicks + (seconds - segment.startSeconds) / segment.secondsPerTick;
  return Math.min(Math.max(ticks, segment.startTicks), segment.endTicks);
}

/** How long one tick lasts by the tempo of this moment, swing and fermatas left aside. **Units** seconds. */
export const secondsPerTickAt = (map: TimeMap, seconds: number): number =>
  segmentAt(map, seconds)?.tempoSecondsPerTick ?? 0;
