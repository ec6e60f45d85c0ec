import type { BarId } from '../basis/ids.ts';
import type { Score } from '../score/score.ts';
import { beatTicksOf, phasesOf } from './beats.ts';
import type { MetricPlace } from './strength.ts';

/** Where in its bar a moment falls: on its first beat, on another one, or between beats. */
export function metricPlaces(
  score: Pick<Score, 'bars' | 'ticksPerQuarter'>,
): (ticks: number, bar: BarId) => MetricPlace {
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
