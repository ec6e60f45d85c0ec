import type { LineId } from '../basis/ids.ts';
import type { Performance } from '../perform/performance.ts';
import { plainMix } from './channel.ts';
import { silentClick } from './clicks.ts';
import { BlockPowers } from './loudness.ts';
import { stemsOf, type StemSource } from './stems.ts';

/** How much each line weighs in the loudness of the whole as time goes on, and notes on no line together: block powers at plain levels. */
export interface LinePowers {
  readonly lines: ReadonlyMap<LineId, readonly number[]>;
  readonly loose: readonly number[];
}

/** Loudness needs no highs that one would want to hear: this rate is a third of the work. **Units** hertz. */
const measuringRate = 16_000;

/** The K-weighted power of each line of a performance, block by block. Slow: it renders everything once. */
export function linePowersOf(performance: Performance): LinePowers {
  const { sources, pieces } = stemsOf({
    performance,
    mix: { lines: [], loose: plainMix },
    sampleRate: measuringRate,
    rate: 1,
    countInBars: 0,
    click: silentClick,
    gainDb: 0,
  });
  const meters = new Map<StemSource, BlockPowers>(sources.map((source) => [source, new BlockPowers(2, measuringRate)]));
  for (const { stems } of pieces())
    for (const [source, { left, right }] of stems) meters.get(source)?.add([left, right]);
  const powersOf = (source: StemSource): readonly number[] => meters.get(source)?.powers() ?? [];
  return { lines: new Map(performance.lines.map((line) => [line, powersOf(line)])), loose: powersOf('loose') };
}
