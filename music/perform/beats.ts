import type { Bar, Meter, Score } from '../score/score.ts';

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

/** A beat of a meter, counted from the meter's start. */
interface MeterBeat {
  readonly beatTicks: number;
  readonly lengthTicks: number;
}

/** The beats of a meter with their lengths. */
export const beatsOfMeter = (beatTicks: readonly number[], meterTicks: number): MeterBeat[] =>
  beatTicks.map((at, index) => ({ beatTicks: at, lengthTicks: (beatTicks[index + 1] ?? meterTicks) - at }));
