import type { SwingMark } from '../score/marks.ts';
import type { TickRange } from '../score/excerpt.ts';
import type { Bar, Score } from '../score/score.ts';
import { beatTicksOf, meterTicksOf, phasesOf } from './beats.ts';
import type { BarSwing } from './performance.ts';
import type { Stretch } from './time-map.ts';

/** The notes of a pair with triplets are a hair apart, so that time still rises. A share of the pair. */
const hairsbreadth = 0.01;

/** The pairs of one beat that a swing mark is about, where the beat is made of whole ones. */
function pairsOfBeat(startTicks: number, beatLengthTicks: number, pairTicks: number): readonly TickRange[] {
  const count = beatLengthTicks / pairTicks;
  if (!Number.isInteger(count)) return [];
  return Array.from({ length: count }, (_, index) => ({
    startTicks: startTicks + index * pairTicks,
    endTicks: startTicks + (index + 1) * pairTicks,
  }));
}

/** The pairs of a bar, counted from where its meter begins, as far as the bar reaches. */
function pairsOfBar(bar: Bar, phaseTicks: number, ticksPerQuarter: number, pairTicks: number): readonly TickRange[] {
  const meterTicks = meterTicksOf(bar.meter, ticksPerQuarter);
  const beats = beatTicksOf(bar.meter, ticksPerQuarter);
  const origin = bar.onsetTicks - phaseTicks;
  const endTicks = bar.onsetTicks + bar.lengthTicks;
  const pairs = beats.flatMap((beat, index) =>
    pairsOfBeat(origin + beat, (beats[index + 1] ?? meterTicks) - beat, pairTicks),
  );
  return pairs.filter((pair) => pair.startTicks < endTicks && pair.endTicks > bar.onsetTicks);
}

const isWhole = (value: number): boolean => Math.abs(value - Math.round(value)) < 1e-6;

/** Whether a share of a pair is a half, a quarter, an eighth … of it. */
const isHalved = (share: number): boolean => isWhole(share * 16);
const isThird = (share: number): boolean => isWhole(share * 3);

interface Place {
  readonly written: number;
  readonly played: number;
}

/**
 * Where the places of a pair are played, as shares of it: its middle comes late. Thirds (triplets) keep their place and
 * the middle goes as far as they let it; a pair with other tuplets stays even. Common practice, no source.
 */
function lateOf(shares: readonly number[], middle: number): readonly Place[] {
  if (!shares.every((share) => isHalved(share) || isThird(share))) return [];
  if (shares.every(isHalved)) return [{ written: 1 / 2, played: middle }];
  if (!shares.includes(1 / 2)) return [];
  const [first, second] = [1 / 3, 2 / 3];
  const held = Math.min(second - hairsbreadth, Math.max(first + hairsbreadth, middle));
  return [first, 1 / 2, second].map((written) => ({ written, played: written === 1 / 2 ? held : written }));
}

function stretchesOfPair({ startTicks, endTicks }: TickRange, late: readonly Place[]): readonly Stretch[] {
  const length = endTicks - startTicks;
  const places = [{ written: 0, played: 0 }, ...late, { written: 1, played: 1 }];
  return places.slice(1).map((to, index) => {
    const from = places[index] ?? to;
    return {
      startTicks: startTicks + from.written * length,
      endTicks: startTicks + to.written * length,
      factor: (to.played - from.played) / (to.written - from.written),
    };
  });
}

/** The parts of stretches that lie in a bar. */
function within(bar: Bar, stretches: readonly Stretch[]): readonly Stretch[] {
  const endTicks = bar.onsetTicks + bar.lengthTicks;
  return stretches
    .map((stretch) => ({
      ...stretch,
      startTicks: Math.max(stretch.startTicks, bar.onsetTicks),
      endTicks: Math.min(stretch.endTicks, endTicks),
    }))
    .filter((stretch) => stretch.startTicks < stretch.endTicks);
}

/** The onsets that lie within a pair, as shares of it. */
function sharesWithin(pair: TickRange, onsets: readonly number[]): readonly number[] {
  const length = pair.endTicks - pair.startTicks;
  return onsets
    .filter((ticks) => ticks >= pair.startTicks && ticks < pair.endTicks)
    .map((ticks) => (ticks - pair.startTicks) / length);
}

const pairTicksOf = (unit: SwingMark['unit'], ticksPerQuarter: number): number =>
  unit === 'eighth' ? ticksPerQuarter : ticksPerQuarter / 2;

/** The swing that holds at a moment; null where it is straight. */
function swingAt(swings: readonly SwingMark[], ticks: number): SwingMark | null {
  const mark = swings.findLast(({ onsetTicks }) => onsetTicks <= ticks);
  return mark === undefined || mark.long === mark.short || mark.long <= 0 || mark.short <= 0 ? null : mark;
}

/** The swing that holds at a moment as what its pairs are made of; null where it is straight. */
export function barSwingAt(score: Pick<Score, 'swings' | 'ticksPerQuarter'>, ticks: number): BarSwing | null {
  const mark = swingAt(score.swings, ticks);
  if (mark === null) return null;
  const pairTicks = pairTicksOf(mark.unit, score.ticksPerQuarter);
  return { pairTicks, middle: mark.long / (mark.long + mark.short) };
}

/** Where a place within a beat is played; thirds and the like, and what stands in a beat that is not made of whole pairs, stay. **Units** ticks from the beat's start. */
export function swungPlace({ pairTicks, middle }: BarSwing, ticks: number, beatLengthTicks: number): number {
  const pair = Math.floor(ticks / pairTicks + 1e-9);
  const share = ticks / pairTicks - pair;
  if (!Number.isInteger(beatLengthTicks / pairTicks) || !isHalved(share)) return ticks;
  const late = share < 1 / 2 ? 2 * share * middle : middle + (2 * share - 1) * (1 - middle);
  return (pair + late) * pairTicks;
}

/** The written ticks that swing marks lengthen and shorten: in each pair of the stated notes the first takes its share of the pair, and the second the rest. Beats that are not made of whole pairs stay even. */
export function swingStretches(
  score: Pick<Score, 'bars' | 'notes' | 'swings' | 'ticksPerQuarter'>,
): readonly Stretch[] {
  if (score.swings.length === 0) return [];
  const phases = phasesOf(score);
  const onsetsOfBar = new Map<Bar['id'], number[]>(score.bars.map(({ id }) => [id, []]));
  for (const note of score.notes) onsetsOfBar.get(note.bar)?.push(note.onsetTicks);
  return score.bars.flatMap((bar) => {
    const onsets = onsetsOfBar.get(bar.id) ?? [];
    return (['eighth', '16th'] as const).flatMap((unit) => {
      const pairTicks = pairTicksOf(unit, score.ticksPerQuarter);
      return pairsOfBar(bar, phases.get(bar) ?? 0, score.ticksPerQuarter, pairTicks).flatMap((pair) => {
        const swing = swingAt(score.swings, Math.max(pair.startTicks, bar.onsetTicks));
        if (swing?.unit !== unit) return [];
        const late = lateOf(sharesWithin(pair, onsets), swing.long / (swing.long + swing.short));
        return within(bar, stretchesOfPair(pair, late));
      });
    });
  });
}
