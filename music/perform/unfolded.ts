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

/** What of a stretch is played when the whole score is: by turns, each until it is left for another place. */
function passesThrough(score: Pick<Score, 'bars'>, { startTicks, endTicks }: TickRange): readonly TickRange[][] {
  const passes: TickRange[][] = [];
  let isWithin = false;
  for (const played of unfoldedRanges(score)) {
    const part = {
      startTicks: Math.max(played.startTicks, startTicks),
      endTicks: Math.min(played.endTicks, endTicks),
    };
    if (part.startTicks < part.endTicks) {
      if (isWithin && played.startTicks >= startTicks) passes.at(-1)?.push(part);
      else passes.push([part]);
    }
    isWithin = part.startTicks < part.endTicks && played.endTicks <= endTicks;
  }
  return passes;
}

/** How much of a stretch these parts of it cover. **Units** ticks. */
function coveredTicks(parts: readonly TickRange[]): number {
  let [covered, reached] = [0, -Infinity];
  for (const { startTicks, endTicks } of [...parts].sort((a, b) => a.startTicks - b.startTicks)) {
    covered += Math.max(0, endTicks - Math.max(startTicks, reached));
    reached = Math.max(reached, endTicks);
  }
  return covered;
}

/**
 * The stretches of written ticks that an excerpt plays with those repeats and jumps that begin and end within it. One that
 * leads out of it is no reason to hear it again, unless only so all of it is heard, as where the first ending is in one
 * time through and the second in another. The excerpt itself where nothing of it is ever played.
 */
export function unfoldedWithin(score: Pick<Score, 'bars'>, excerpt: TickRange): readonly TickRange[] {
  const passes = passesThrough(score, excerpt);
  const allTicks = coveredTicks(passes.flat());
  const whole = passes.find((pass) => coveredTicks(pass) === allTicks);
  if (whole !== undefined) return whole;
  const heard: TickRange[] = [];
  for (const pass of passes) if (coveredTicks([...heard, ...pass]) > coveredTicks(heard)) heard.push(...pass);
  return heard.length === 0 ? [excerpt] : heard;
}
