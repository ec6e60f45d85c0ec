import { beatParts } from './beat-parts.ts';
import { beatsOfMeter } from './beats.ts';
import type { Click, Performance, PerformedBar } from './performance.ts';
import { swungPlace } from './swing.ts';
import { secondsPerTickAt, ticksAtSeconds } from './time-map.ts';

const near = 1e-6;

/** A count-in: its clicks and its whole length. **Units** seconds; the clicks count from the moment where playing begins, so they are negative. */
export interface CountIn {
  readonly clicks: readonly Click[];
  readonly lengthSeconds: number;
}

/** Where a moment of a bar is played as its swing has it. **Units** ticks from the meter's start. */
function swungTicks({ beatTicks, meterTicks, swing }: PerformedBar, ticks: number): number {
  const beat = beatsOfMeter(beatTicks, meterTicks).findLast((each) => each.beatTicks <= ticks + near);
  if (beat === undefined || swing === null) return ticks;
  return beat.beatTicks + swungPlace(swing, ticks - beat.beatTicks, beat.lengthTicks);
}

/** The clicks of the bar that is counted `barsBefore` bars before the one that is begun, up to `endTicks`. */
function clicksOfBar(bar: PerformedBar, barsBefore: number, endTicks: number): readonly Click[] {
  return beatsOfMeter(bar.beatTicks, bar.meterTicks).flatMap(({ beatTicks, lengthTicks }) =>
    beatParts.flatMap(({ share, subdivisions }): readonly Click[] => {
      const ticks = beatTicks + share * lengthTicks;
      if (ticks >= endTicks - near) return [];
      const accent = share > 0 ? 'part' : beatTicks === 0 ? 'bar' : 'beat';
      return [{ atSeconds: swungTicks(bar, ticks) - barsBefore * bar.meterTicks, accent, subdivisions }];
    }),
  );
}

/**
 * The count-in before playing from `fromSeconds`: whole bars of the bar that is begun, at its tempo and swing,
 * and the beats of the part-bar that precedes the first note where playing begins within a bar.
 */
export function countInBefore(
  performance: Pick<Performance, 'bars' | 'timeMap'>,
  fromSeconds: number,
  barCount: number,
): CountIn {
  const bar =
    performance.bars.findLast((candidate) => candidate.startSeconds <= fromSeconds + 1e-9) ?? performance.bars[0];
  if (bar === undefined || barCount <= 0) return { clicks: [], lengthSeconds: 0 };
  const perTick = secondsPerTickAt(performance.timeMap, fromSeconds);
  const partTicks = Math.max(0, ticksAtSeconds(performance.timeMap, fromSeconds) - bar.onsetTicks) + bar.phaseTicks;
  const part = partTicks >= bar.meterTicks || partTicks < near ? 0 : partTicks;
  const lead = swungTicks(bar, part);
  const clicks: Click[] = [];
  for (let before = barCount; before >= 0; before -= 1)
    clicks.push(...clicksOfBar(bar, before, before === 0 ? part : bar.meterTicks));
  return {
    clicks: clicks
      .map((click) => ({ ...click, atSeconds: (click.atSeconds - lead) * perTick }))
      .sort((a, b) => a.atSeconds - b.atSeconds),
    lengthSeconds: (barCount * bar.meterTicks + lead) * perTick,
  };
}
