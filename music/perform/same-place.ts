import type { TimeMap, TimeSegment } from './performance.ts';
import { ticksAtSeconds } from './time-map.ts';

const near = 1e-9;

const isSameSegment = (a: TimeSegment, b: TimeSegment | undefined): boolean =>
  b !== undefined &&
  a.startTicks === b.startTicks &&
  a.endTicks === b.endTicks &&
  a.startSeconds === b.startSeconds &&
  a.secondsPerTick === b.secondsPerTick;

function isSameMap(a: TimeMap, b: TimeMap): boolean {
  return (
    a === b ||
    (a.segments.length === b.segments.length &&
      a.segments.every((segment, index) => isSameSegment(segment, b.segments[index])))
  );
}

/** Each moment at which these written ticks are played, in order; none where they are not. **Units** seconds. */
export function momentsAtTicks(map: TimeMap, ticks: number): readonly number[] {
  return map.segments.flatMap(({ startTicks, endTicks, startSeconds, secondsPerTick }) =>
    ticks >= startTicks && ticks < endTicks ? [startSeconds + (ticks - startTicks) * secondsPerTick] : [],
  );
}

/**
 * When the written place that is played at `seconds` of one performance is played in another: in the same pass of it, else
 * in its last; the same seconds where the other never plays it. **Units** seconds from each performance's start.
 */
export function samePlaceIn(map: TimeMap, before: TimeMap, seconds: number): number {
  if (isSameMap(map, before)) return seconds;
  const ticks = ticksAtSeconds(before, seconds);
  const pass = momentsAtTicks(before, ticks).filter((moment) => moment < seconds - near).length;
  const moments = momentsAtTicks(map, ticks);
  return moments[Math.min(pass, moments.length - 1)] ?? Math.min(seconds, map.lengthSeconds);
}
