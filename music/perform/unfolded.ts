import { playingOrder } from '../form/playing-order.ts';
import type { TickRange } from '../score/excerpt.ts';
import type { Score } from '../score/score.ts';

/** The stretches of written ticks that a score plays from start to end, repeats and jumps followed; neighbours are joined. */
export function unfoldedRanges(score: Pick<Score, 'bars'>): readonly TickRange[] {
  const bars = new Map(score.bars.map((bar) => [bar.id, bar]));
  const ranges: TickRange[] = [];
  for (const { bar: id } of playingOrder(score)) {
    const bar = bars.get(id);
    if (bar === undefined) continue;
    const endTicks = bar.onsetTicks + bar.lengthTicks;
    const last = ranges.at(-1);
    if (last?.endTicks === bar.onsetTicks) ranges[ranges.length - 1] = { startTicks: last.startTicks, endTicks };
    else ranges.push({ startTicks: bar.onsetTicks, endTicks });
  }
  return ranges;
}
