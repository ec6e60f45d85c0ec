import type { TickRange } from '../score/excerpt.ts';
import type { Score, TempoMark } from '../score/score.ts';
import type { TimeMap, TimeSegment } from './performance.ts';

/** What is played where a score names no tempo. **Units** quarter notes a minute. */
export const assumedTempo = 90;

function tempoAt(tempos: readonly TempoMark[], ticks: number): number {
  let tempo = tempos.find((mark) => mark.quartersPerMinute > 0)?.quartersPerMinute ?? assumedTempo;
  for (const mark of tempos) if (mark.onsetTicks <= ticks && mark.quartersPerMinute > 0) tempo = mark.quartersPerMinute;
  return tempo;
}

function cutsWithin(range: TickRange, tempos: readonly TempoMark[]): number[] {
  const inner = tempos.map((mark) => mark.onsetTicks).filter((at) => at > range.startTicks && at < range.endTicks);
  return [...new Set([range.startTicks, ...inner, range.endTicks])].sort((a, b) => a - b);
}

/**
 * The time map of stretches played one after the other: continuous, and rising within each stretch.
 * A tempo holds from its mark to the next; the first one holds from the beginning.
 */
export function timeMapOf(score: Pick<Score, 'tempos' | 'ticksPerQuarter'>, ranges: readonly TickRange[]): TimeMap {
  const tempos = [...score.tempos].sort((a, b) => a.onsetTicks - b.onsetTicks);
  const segments: TimeSegment[] = [];
  let seconds = 0;
  for (const range of ranges) {
    const cuts = cutsWithin(range, tempos);
    for (const [index, startTicks] of cuts.slice(0, -1).entries()) {
      const endTicks = cuts[index + 1] ?? range.endTicks;
      const secondsPerTick = 60 / tempoAt(tempos, startTicks) / score.ticksPerQuarter;
      segments.push({ startTicks, endTicks, startSeconds: seconds, secondsPerTick });
      seconds += (endTicks - startTicks) * secondsPerTick;
    }
  }
  return { segments, lengthSeconds: seconds };
}

const secondsIn = (segment: TimeSegment, ticks: number): number =>
  segment.startSeconds + (ticks - segment.startTicks) * segment.secondsPerTick;

/** When these written ticks are first played; the nearest end of the performance where they are not played at all. **Units** seconds. */
export function secondsAtTicks(map: TimeMap, ticks: number): number {
  const within = map.segments.find((segment) => ticks >= segment.startTicks && ticks < segment.endTicks);
  if (within !== undefined) return secondsIn(within, ticks);
  const ending = map.segments.find((segment) => ticks === segment.endTicks);
  if (ending !== undefined) return secondsIn(ending, ticks);
  const earliest = Math.min(...map.segments.map((segment) => segment.startTicks));
  return ticks < earliest ? 0 : map.lengthSeconds;
}

/**
 * When a stretch of written ticks is first played: its start as `secondsAtTicks` finds it, its end the next time that its
 * end is reached from there. **Units** seconds.
 */
export function secondsOfRange(
  map: TimeMap,
  range: TickRange,
): { readonly startSeconds: number; readonly endSeconds: number } {
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
function segmentAt(map: TimeMap, seconds: number): TimeSegment | undefined {
  let low = 0;
  let high = map.segments.length - 1;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if ((map.segments[middle]?.startSeconds ?? Infinity) <= seconds) low = middle;
    else high = middle - 1;
  }
  return map.segments[low];
}

/** The written ticks that are played at this moment, not rounded; held at the ends of the performance. */
export function ticksAtSeconds(map: TimeMap, seconds: number): number {
  const segment = segmentAt(map, seconds);
  if (segment === undefined) return 0;
  const ticks = segment.startTicks + (seconds - segment.startSeconds) / segment.secondsPerTick;
  return Math.min(Math.max(ticks, segment.startTicks), segment.endTicks);
}

/** How long one tick lasts at this moment. **Units** seconds. */
export const secondsPerTickAt = (map: TimeMap, seconds: number): number => segmentAt(map, seconds)?.secondsPerTick ?? 0;
