import type { LineId } from '../basis/ids.ts';
import type { Performance } from '../perform/performance.ts';
import { blockPowersOf } from './loudness.ts';
import { mixOfOnly, renderPerformance } from './render-lines.ts';

/** How much each line weighs in the loudness of the whole as time goes on, and notes on no line together: block powers at plain levels. */
export interface LinePowers {
  readonly lines: ReadonlyMap<LineId, readonly number[]>;
  readonly loose: readonly number[];
}

/** Loudness needs no highs that one would want to hear: this rate is a third of the work. **Units** hertz. */
const measuringRate = 16_000;

/** The K-weighted power of each line of a performance, block by block. Slow: it renders everything once per line. */
export function linePowersOf(performance: Performance): LinePowers {
  const powersOf = (heard: readonly LineId[], isLooseHeard: boolean): readonly number[] => {
    const { left, right } = renderPerformance(performance, mixOfOnly(performance, heard, isLooseHeard), {
      sampleRate: measuringRate,
    });
    return blockPowersOf([left, right], measuringRate);
  };
  const hasLoose = performance.events.some((event) => event.line === null);
  return {
    lines: new Map(performance.lines.map((line) => [line, powersOf([line], false)])),
    loose: hasLoose ? powersOf([], true) : [],
  };
}
