import type { TickRange } from '../score/excerpt.ts';
import type { Bar, Meter, Score } from '../score/score.ts';
import type { ClickBeat, Performance, PerformedBar, TimeMap } from './performance.ts';
import { clocksOf, secondsPerTickAt, ticksAtSeconds, timeMapOf, type Clock } from './time-map.ts';

const unitTicks = (meter: Meter, ticksPerQuarter: number): number => (ticksPerQuarter * 4) / meter.beatUnit;

/** A meter's whole length. */
export const meterTicksOf = (meter: Meter, ticksPerQuarter: number): number =>
  meter.beats.reduce((sum, count) => sum + count, 0) * unitTicks(meter, ticksPerQuarter);

/**
 * Where a meter's beats fall, from its start: additive groups are a beat each; a single group of eighths or shorter
 * that threes divide is counted in threes (6/8 in two); all else counts its unit. Common practice, no source.
 */
export function beatTicksOf(meter: Meter, ticksPerQuarter: number): readonly number[] {
  const unit = unitTicks(meter, ticksPerQuarter);
  const [only] = meter.beats;
  const groups = meter.beats.length > 1 ? meter.beats : groupsOf(only ?? 4, meter.beatUnit);
  const beats: number[] = [];
  let at = 0;
  for (const count of groups) {
    beats.push(at);
    at += count * unit;
  }
  return beats;
}

function groupsOf(count: number, beatUnit: number): readonly number[] {
  const isCompound = beatUnit >= 8 && count > 3 && count % 3 === 0;
  const size = isCompound ? 3 : 1;
  return Array.from({ length: count / size }, () => size);
}

/** A short bar ends its meter where it opens the piece or completes a short bar before it; else it begins it. */
function phaseOf(bar: Bar, before: { bar: Bar; phase: number } | null, ticksPerQuarter: number): number {
  const missing = meterTicksOf(bar.meter, ticksPerQuarter) - bar.lengthTicks;
  if (missing <= 0) return 0;
  if (before === null) return missing;
  const wasCut = before.phase === 0 && before.bar.lengthTicks < meterTicksOf(before.bar.meter, ticksPerQuarter);
  return wasCut && before.bar.lengthTicks <= missing ? missing : 0;
}

/** How far into its meter each bar begins, by place in written order. */
export function phasesOf(score: Pick<Score, 'bars' | 'ticksPerQuarter'>): ReadonlyMap<Bar, number> {
  const phases = new Map<Bar, number>();
  let before: { bar: Bar; phase: number } | null = null;
  for (const bar of score.bars) {
    const phase = phaseOf(bar, before, score.ticksPerQuarter);
    phases.set(bar, phase);
    before = { bar, phase };
  }
  return phases;
}

interface MeterBeat {
  readonly beatTicks: number;
  readonly lengthTicks: number;
}

const beatsOfMeter = ({ beatTicks, meterTicks }: Pick<PerformedBar, 'beatTicks' | 'meterTicks'>): MeterBeat[] =>
  beatTicks.map((at, index) => ({ beatTicks: at, lengthTicks: (beatTicks[index + 1] ?? meterTicks) - at }));

/** A bar longer than its meter goes on counting. */
function beatsWithin(bar: PerformedBar): readonly MeterBeat[] {
  const beats = beatsOfMeter(bar);
  const step = beats[0]?.lengthTicks ?? bar.meterTicks;
  for (let at = bar.meterTicks; at < bar.phaseTicks + bar.lengthTicks; at += step)
    beats.push({ beatTicks: at, lengthTicks: step });
  return beats;
}

/** The click's beats within the part of a bar that is played. */
function beatsOf(bar: PerformedBar, played: TickRange, secondsAt: Clock, tempoAt: Clock): readonly ClickBeat[] {
  return beatsWithin(bar).flatMap(({ beatTicks, lengthTicks }) => {
    const ticks = bar.onsetTicks - bar.phaseTicks + beatTicks;
    if (ticks < played.startTicks || ticks >= played.endTicks) return [];
    const atSeconds = secondsAt(ticks);
    const lengthSeconds = tempoAt(ticks + lengthTicks) - tempoAt(ticks);
    return [{ atSeconds, accent: beatTicks === 0 ? 'bar' : 'beat', lengthSeconds }];
  });
}

/** Every playing of every bar that some stretch touches, in order of playing, and the click's beats in them. */
export function playedBarsOf(
  score: Pick<Score, 'bars' | 'tempos' | 'ticksPerQuarter'>,
  ranges: readonly TickRange[],
  map: TimeMap,
): { readonly bars: readonly PerformedBar[]; readonly beats: readonly ClickBeat[] } {
  const phases = phasesOf(score);
  const bars: PerformedBar[] = [];
  const beats: ClickBeat[] = [];
  const byTempo = clocksOf(ranges, timeMapOf(score, ranges));
  for (const [index, { range, secondsAt }] of clocksOf(ranges, map).entries()) {
    const tempoAt = byTempo[index]?.secondsAt ?? secondsAt;
    for (const bar of score.bars) {
      const startTicks = Math.max(bar.onsetTicks, range.startTicks);
      const endTicks = Math.min(bar.onsetTicks + bar.lengthTicks, range.endTicks);
      if (endTicks <= startTicks) continue;
      const played = {
        bar: bar.id,
        onsetTicks: bar.onsetTicks,
        lengthTicks: bar.lengthTicks,
        phaseTicks: phases.get(bar) ?? 0,
        meterTicks: meterTicksOf(bar.meter, score.ticksPerQuarter),
        beatTicks: beatTicksOf(bar.meter, score.ticksPerQuarter),
        startSeconds: secondsAt(startTicks),
        endSeconds: secondsAt(endTicks),
      };
      bars.push(played);
      beats.push(...beatsOf(played, { startTicks, endTicks }, secondsAt, tempoAt));
    }
  }
  return { bars, beats };
}

/** A count-in: its beats and its whole length. **Units** seconds; the beats count from the moment where playing begins, so they are negative. */
export interface CountIn {
  readonly beats: readonly ClickBeat[];
  readonly lengthSeconds: number;
}

/**
 * The count-in before playing from `fromSeconds`: whole bars of the bar that is begun, at its tempo,
 * and the beats of the part-bar that precedes the first note where playing begins within a bar.
 */
export function countInBefore(
  performance: Pick<Performance, 'bars' | 'timeMap'>,
  fromSeconds: number,
  barCount: number,
): CountIn {
  const bar =
    performance.bars.findLast((candidate) => candidate.startSeconds <= fromSeconds + 1e-9) ?? performance.bars[0];
  if (bar === undefined || barCount <= 0) return { beats: [], lengthSeconds: 0 };
  const perTick = secondsPerTickAt(performance.timeMap, fromSeconds);
  const partTicks = Math.max(0, ticksAtSeconds(performance.timeMap, fromSeconds) - bar.onsetTicks) + bar.phaseTicks;
  const part = partTicks >= bar.meterTicks || partTicks < 1e-6 ? 0 : partTicks;
  const beats: ClickBeat[] = [];
  for (let index = 0; index <= barCount; index += 1) {
    for (const { beatTicks, lengthTicks } of beatsOfMeter(bar)) {
      if (index === barCount && beatTicks >= part - 1e-6) continue;
      const ticks = (index - barCount) * bar.meterTicks + beatTicks - part;
      const accent = beatTicks === 0 ? 'bar' : 'beat';
      beats.push({ atSeconds: ticks * perTick, accent, lengthSeconds: lengthTicks * perTick });
    }
  }
  return { beats, lengthSeconds: (barCount * bar.meterTicks + part) * perTick };
}
