import type { TickRange } from '../score/excerpt.ts';
import type { Bar, Score } from '../score/score.ts';
import { beatParts } from './beat-parts.ts';
import { beatsOfMeter, beatTicksOf, meterTicksOf, phasesOf } from './beats.ts';
import type { Click, PerformedBar, TimeMap } from './performance.ts';
import { barSwingAt } from './swing.ts';
import { clocksOf, timeMapOf, type Clock, type Stretch } from './time-map.ts';

const near = 1e-6;

/** What lengthens and shortens written ticks, by why. */
export interface Pace {
  readonly swing: readonly Stretch[];
  readonly fermatas: readonly Stretch[];
  readonly tempoWords: readonly Stretch[];
}

/** The clocks of one stretch: as it is played, and without its swing. */
interface Clocks {
  readonly played: Clock;
  readonly even: Clock;
  readonly isWaiting: (ticks: number) => boolean;
}

interface Beat {
  readonly startTicks: number;
  readonly lengthTicks: number;
  readonly isFirst: boolean;
}

/** The beats of a bar; one that is longer than its meter goes on counting. */
function beatsWithin(bar: PerformedBar): readonly Beat[] {
  const beats = beatsOfMeter(bar.beatTicks, bar.meterTicks);
  const step = beats[0]?.lengthTicks ?? bar.meterTicks;
  for (let at = bar.meterTicks; at < bar.phaseTicks + bar.lengthTicks; at += step)
    beats.push({ beatTicks: at, lengthTicks: step });
  return beats.map(({ beatTicks, lengthTicks }) => ({
    startTicks: bar.onsetTicks - bar.phaseTicks + beatTicks,
    lengthTicks,
    isFirst: beatTicks === 0,
  }));
}

/** The clicks of a beat and its parts as far as they are played; thirds do not swing, and nothing clicks while everything waits. */
function clicksOfBeat(beat: Beat, range: TickRange, { played, even, isWaiting }: Clocks): readonly Click[] {
  return beatParts.flatMap(({ share, subdivisions }): readonly Click[] => {
    const ticks = beat.startTicks + share * beat.lengthTicks;
    if (ticks < range.startTicks - near || ticks >= range.endTicks - near || isWaiting(ticks)) return [];
    const isThird = subdivisions.length === 1 && subdivisions[0] === 3;
    const atSeconds = isThird
      ? played(beat.startTicks) + even(ticks) - even(beat.startTicks)
      : played(Math.max(range.startTicks, ticks));
    return [{ atSeconds, accent: share > 0 ? 'part' : beat.isFirst ? 'bar' : 'beat', subdivisions }];
  });
}

type PacedScore = Pick<Score, 'bars' | 'tempos' | 'swings' | 'ticksPerQuarter'>;

function playedBar(score: PacedScore, bar: Bar, phaseTicks: number, range: TickRange, clock: Clock): PerformedBar {
  return {
    bar: bar.id,
    onsetTicks: bar.onsetTicks,
    lengthTicks: bar.lengthTicks,
    phaseTicks,
    meterTicks: meterTicksOf(bar.meter, score.ticksPerQuarter),
    beatTicks: beatTicksOf(bar.meter, score.ticksPerQuarter),
    swing: barSwingAt(score, range.startTicks),
    startSeconds: clock(range.startTicks),
    endSeconds: clock(range.endTicks),
  };
}

/** Every playing of every bar that some stretch touches, in order of playing, and the moments at which the click may sound in them. */
export function playedBarsOf(
  score: PacedScore,
  ranges: readonly TickRange[],
  map: TimeMap,
  pace: Pace,
): { readonly bars: readonly PerformedBar[]; readonly clicks: readonly Click[] } {
  const phases = phasesOf(score);
  const swinging = pace.swing.length === 0 ? { ...score, swings: [] } : score;
  const evenClocks = clocksOf(ranges, timeMapOf(score, ranges, [pace.fermatas, pace.tempoWords]));
  const isWaiting = (ticks: number): boolean =>
    pace.fermatas.some(({ startTicks, endTicks }) => ticks > startTicks + near && ticks < endTicks - near);
  const bars: PerformedBar[] = [];
  const clicks: Click[] = [];
  for (const [index, { range, secondsAt }] of clocksOf(ranges, map).entries()) {
    const clocks = { played: secondsAt, even: evenClocks[index]?.secondsAt ?? secondsAt, isWaiting };
    for (const bar of score.bars) {
      const startTicks = Math.max(bar.onsetTicks, range.startTicks);
      const endTicks = Math.min(bar.onsetTicks + bar.lengthTicks, range.endTicks);
      if (endTicks <= startTicks) continue;
      const played = playedBar(swinging, bar, phases.get(bar) ?? 0, { startTicks, endTicks }, secondsAt);
      bars.push(played);
      for (const beat of beatsWithin(played)) clicks.push(...clicksOfBeat(beat, { startTicks, endTicks }, clocks));
    }
  }
  return { bars, clicks: clicks.sort((a, b) => a.atSeconds - b.atSeconds) };
}
