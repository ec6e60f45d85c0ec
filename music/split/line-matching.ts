import { assert } from '../basis/assert.ts';
import type { LineId } from '../basis/ids.ts';

/** How often the notes of a pinned line lie in each slot of a free split, slots counted from the highest. */
export type SlotVotes = ReadonlyMap<LineId, readonly number[]>;

/** How many orders of lines are tried before the first that fits is taken. */
const mostTrials = 50_000;

/**
 * A slot for each line, each slot used once, with the most votes won; equal sums go to the earlier line in the higher slot.
 * **Errors** throws where there are more lines than slots, which is a bug of ours.
 */
export function matchLines(lines: readonly LineId[], votes: SlotVotes, slotCount: number): ReadonlyMap<LineId, number> {
  const best = { slots: [] as readonly number[], votes: -1, trials: 0 };
  const slots: number[] = [];
  const place = (index: number, sum: number): void => {
    if (index === lines.length) {
      if (sum > best.votes) Object.assign(best, { slots: [...slots], votes: sum });
      return;
    }
    for (let slot = 0; slot < slotCount; slot++) {
      if (slots.includes(slot) || (best.votes >= 0 && ++best.trials > mostTrials)) continue;
      slots.push(slot);
      place(index + 1, sum + (votes.get(lines[index] as LineId)?.[slot] ?? 0));
      slots.pop();
    }
  };
  place(0, 0);
  assert(best.votes >= 0, 'more lines than slots');
  return new Map(lines.map((line, index) => [line, best.slots[index] as number]));
}
