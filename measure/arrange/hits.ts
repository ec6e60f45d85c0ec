import type { HitKind } from '../../music/index.ts';
import { wholeNumbers } from '../numbers.ts';

/** A hit that is added to an arrangement. */
export interface AddedHit {
  readonly onsetTicks: number;
  readonly hit: HitKind;
}

const kinds: readonly HitKind[] = ['lowBody', 'highBody', 'stringSlap', 'deadNote'];

/** Hits on about one beat in `every`; a dead note only where at most one pitch is struck, since within a strum it is the strum's. */
export function hitsOnBeats(
  beats: readonly number[],
  struckAt: ReadonlyMap<number, number>,
  every: number,
  seed: number,
): readonly AddedHit[] {
  const next = wholeNumbers(seed);
  return beats.flatMap((onsetTicks) => {
    const [isHit, drawn] = [next(every) === 0, kinds[next(kinds.length)] as HitKind];
    if (!isHit) return [];
    const hit = drawn === 'deadNote' && (struckAt.get(onsetTicks) ?? 0) > 1 ? 'lowBody' : drawn;
    return [{ onsetTicks, hit }];
  });
}
