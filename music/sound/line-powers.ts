import type { LineId } from '../basis/ids.ts';
import type { Performance } from '../perform/performance.ts';
import { brightnessOf, plainMix, toneSmoothingOf } from './channel.ts';
import { silentClick } from './clicks.ts';
import { BlockPowers } from './loudness.ts';
import type { StereoSound } from './render-lines.ts';
import type { StemSource } from './stems-order.ts';
import { UnlimitedStems } from './unlimited-stems.ts';

/** Block powers of one sound: as it is, of its highs alone, which tone moves, and of itself with its highs once more. */
export interface TonePowers {
  readonly plain: readonly number[];
  readonly highs: readonly number[];
  readonly doubled: readonly number[];
}

/** How much each line weighs in the loudness of the whole as time goes on, and notes on no line together: powers at plain levels. */
export interface LinePowers {
  readonly lines: ReadonlyMap<LineId, TonePowers>;
  readonly loose: TonePowers;
}

const noPowers: TonePowers = { plain: [], highs: [], doubled: [] };

/** The block powers of a sound at a tone: with x the sound and h its highs, those of x + (brightness − 1) h, a square in it. */
export function powersAtTone({ plain, highs, doubled }: TonePowers, tone: number): readonly number[] {
  const more = brightnessOf(tone) - 1;
  if (more === 0) return plain;
  return plain.map((power, block) => {
    const high = highs[block] ?? 0;
    const crossed = (doubled[block] ?? 0) - power - high;
    return Math.max(0, power + more * crossed + more * more * high);
  });
}

/** Loudness needs no highs that one would want to hear: this rate is a third of the work. **Units** hertz. */
const measuringRate = 16_000;

/** What a channel's tone leaves alone is taken off one side of a sound. */
class Highs {
  private readonly smoothing = toneSmoothingOf(measuringRate);
  private low = 0;

  of(samples: Float32Array): Float32Array {
    return samples.map((sample) => {
      this.low += (sample - this.low) * this.smoothing;
      return sample - this.low;
    });
  }
}

const sumOf = (one: Float32Array, other: Float32Array): Float32Array =>
  one.map((sample, index) => sample + (other[index] as number));

/** Measures one stem as it comes. */
class ToneMeter {
  private readonly sides = [new Highs(), new Highs()] as const;
  private readonly plain = new BlockPowers(2, measuringRate);
  private readonly highs = new BlockPowers(2, measuringRate);
  private readonly doubled = new BlockPowers(2, measuringRate);

  add({ left, right }: StereoSound): void {
    const [highLeft, highRight] = [this.sides[0].of(left), this.sides[1].of(right)];
    this.plain.add([left, right]);
    this.highs.add([highLeft, highRight]);
    this.doubled.add([sumOf(left, highLeft), sumOf(right, highRight)]);
  }

  powers(): TonePowers {
    return { plain: this.plain.powers(), highs: this.highs.powers(), doubled: this.doubled.powers() };
  }
}

/** The K-weighted powers of each line of a performance, block by block, at any tone. Slow: it renders everything once. */
export function linePowersOf(performance: Performance): LinePowers {
  const order = {
    performance,
    mix: { lines: [], loose: plainMix },
    sampleRate: measuringRate,
    rate: 1,
    countInBars: 0,
    click: silentClick,
  } as const;
  const unlimited = new UnlimitedStems(order, { isDivided: true, mostKeptBytes: 0 });
  const meters = unlimited.sources.map(() => new ToneMeter());
  for (const strands of unlimited.pieces())
    for (const [index, meter] of meters.entries()) meter.add(strands[index] as StereoSound);
  const powersOf = (source: StemSource): TonePowers => meters[unlimited.sources.indexOf(source)]?.powers() ?? noPowers;
  return { lines: new Map(performance.lines.map((line) => [line, powersOf(line)])), loose: powersOf('loose') };
}
