import type { Bus } from './bus.ts';
import { blockSamples } from './channel.ts';
import { SoundEngine } from './engine.ts';
import { limiterLatencySamples } from './limiter.ts';
import type { StereoSound } from './render-lines.ts';
import { audibleSources, renderedSeconds, type StemsOrder, type StemSource } from './stems-order.ts';

/** How many samples a piece of rendered sound has. */
export const pieceSamples = 64 * blockSamples;

/** Two sides of silence. */
export const silence = (length: number): StereoSound => ({
  left: new Float32Array(length),
  right: new Float32Array(length),
});

/** How long before its end rendered sound is damped. */
const dampingSeconds = 0.5;

/** How stems are rendered. */
export interface StemsManner {
  /** Whether each source has a strand of its own, or all have one together, which is less work. */
  readonly isDivided: boolean;
  /** Sound that takes no more than this is played once and kept, the rest is played anew whenever it is gone through. **Units** bytes. */
  readonly mostKeptBytes: number;
}

const bytesPerFrame = 2 * Float32Array.BYTES_PER_ELEMENT;

function playingOf(order: StemsOrder, { isDivided }: StemsManner): SoundEngine {
  const engine = new SoundEngine(order.sampleRate, isDivided ? 'separate' : 'together');
  engine.setMix(order.mix);
  engine.load(order.performance);
  engine.setClick(order.click);
  engine.setRate(order.rate);
  engine.play(0, order.countInBars);
  return engine;
}

/**
 * What the sources of a mix give before volume and limiter, in one rendering: strings are stolen and damped by all notes
 * whoever is heard. It hangs on no gain, and can be gone through as often as it is wanted.
 */
export class UnlimitedStems {
  readonly order: StemsOrder;
  readonly sources: readonly StemSource[];
  /** What is wanted of it; the pieces go on until a limiter has let go of that. */
  readonly lengthFrames: number;
  readonly pieceCount: number;
  readonly isDivided: boolean;
  /** Where whatever still rings is damped, so that it has died away when the sound ends. */
  private readonly dampedFrame: number;
  private readonly manner: StemsManner;
  private readonly kept: (readonly StereoSound[])[] = [];

  constructor(order: StemsOrder, manner: StemsManner) {
    this.order = order;
    this.sources = audibleSources(order);
    this.lengthFrames = Math.ceil(renderedSeconds(order) * order.sampleRate);
    this.pieceCount = Math.ceil((this.lengthFrames + limiterLatencySamples(order.sampleRate)) / pieceSamples);
    const dampFrame = this.lengthFrames - dampingSeconds * order.sampleRate;
    this.dampedFrame = blockSamples * Math.max(0, Math.floor(dampFrame / blockSamples));
    this.isDivided = manner.isDivided;
    this.manner = manner;
  }

  /** The strands of each piece, in the order of `sources`, else a single one; valid until the next piece is asked for. */
  *pieces(): Generator<readonly StereoSound[], void> {
    if (this.kept.length === this.pieceCount) yield* this.kept;
    else yield* this.played();
  }

  private *played(): Generator<readonly StereoSound[], void> {
    const engine = playingOf(this.order, this.manner);
    const buses = this.busesOf(engine);
    const isKept = this.pieceCount * pieceSamples * buses.length * bytesPerFrame <= this.manner.mostKeptBytes;
    const mix = silence(blockSamples);
    this.kept.length = 0;
    let strands = buses.map(() => silence(pieceSamples));
    for (let piece = 0; piece < this.pieceCount; piece += 1) {
      if (isKept && piece > 0) strands = buses.map(() => silence(pieceSamples));
      for (let at = 0; at < pieceSamples; at += blockSamples) {
        if (engine.report.frame === this.dampedFrame) engine.stop();
        engine.processUnlimited(mix.left, mix.right);
        for (const [index, bus] of buses.entries()) {
          strands[index]?.left.set(bus.left, at);
          strands[index]?.right.set(bus.right, at);
        }
      }
      if (isKept) this.kept.push(strands);
      yield strands;
    }
  }

  /** Where channels come together, any source leads to the bus of all. */
  private busesOf(engine: SoundEngine): readonly Bus[] {
    const sources: readonly StemSource[] = this.manner.isDivided ? this.sources : ['loose'];
    return sources.flatMap((source) => engine.busOf(source) ?? []);
  }
}

/** Adds strands up, one after the other. */
export function addUp(strands: readonly StereoSound[], sum: StereoSound): void {
  sum.left.fill(0);
  sum.right.fill(0);
  for (const strand of strands) {
    addTo(strand.left, sum.left);
    addTo(strand.right, sum.right);
  }
}

function addTo(samples: Float32Array, sum: Float32Array): void {
  for (let index = 0; index < sum.length; index += 1) sum[index] = (sum[index] as number) + (samples[index] as number);
}
