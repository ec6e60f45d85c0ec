import { Limiter } from './limiter.ts';
import { volumeGainOf } from './level.ts';
import { PeakWatch } from './peak-watch.ts';
import type { StereoSound } from './render-lines.ts';
import type { StemSource } from './stems-order.ts';
import { addUp, pieceSamples, silence, type UnlimitedStems } from './unlimited-stems.ts';

/** A piece of the mix and of every stem; the samples are valid until the next piece is asked for. */
export interface StemsPiece {
  readonly mix: StereoSound;
  readonly stems: ReadonlyMap<StemSource, StereoSound>;
}

/** One stem on its way: what it gave, kept for as long as the limiter looks ahead. */
class Strand {
  private readonly watch = new PeakWatch();
  private readonly waiting: StereoSound;
  private readonly out = silence(pieceSamples);
  private readonly latencySamples: number;

  constructor(latencySamples: number) {
    this.waiting = silence(latencySamples + pieceSamples);
    this.latencySamples = latencySamples;
  }

  /** Lowers the gains of a piece to what this stem needs by itself, at a volume. */
  lower(gains: Float32Array, { left, right }: StereoSound, volume: number): void {
    for (let index = 0; index < gains.length; index += 1) {
      const wanted = this.watch.wanted((left[index] as number) * volume, (right[index] as number) * volume);
      if (wanted < (gains[index] as number)) gains[index] = wanted;
    }
  }

  /** The next piece: as it was when the limiter saw it, times what the limiter made of it. */
  limited(raw: StereoSound, gains: Float32Array): StereoSound {
    for (const side of ['left', 'right'] as const) {
      this.waiting[side].set(raw[side], this.latencySamples);
      withGains(this.waiting[side], gains, this.out[side]);
    }
    return this.out;
  }
}

function withGains(waiting: Float32Array, gains: Float32Array, out: Float32Array): void {
  for (let index = 0; index < pieceSamples; index += 1)
    out[index] = (waiting[index] as number) * (gains[index] as number);
  waiting.copyWithin(0, pieceSamples);
}

const cut = ({ left, right }: StereoSound, from: number, to: number): StereoSound => ({
  left: left.subarray(from, to),
  right: right.subarray(from, to),
});

function amplify(samples: Float32Array, gain: number): void {
  for (let index = 0; index < samples.length; index += 1) samples[index] = (samples[index] as number) * gain;
}

/**
 * The mix and, where the rendering is divided, a stem for each source that is heard in it, at a gain: every stem begins
 * with the mix, and what volume and limiter do to the mix they do to every stem, so that the stems sum to the mix. The
 * limiter turns down for stems as well: one alone may peak higher than all together.
 * Together the pieces are as long as `lengthFrames`. **Units** decibels.
 */
export function* limitedStems(unlimited: UnlimitedStems, gainDb: number): Generator<StemsPiece, void> {
  const { order, sources, lengthFrames } = unlimited;
  const limiter = new Limiter(order.sampleRate);
  const { latencySamples } = limiter;
  const volume = volumeGainOf(gainDb);
  const strands = unlimited.isDivided ? sources.map((source) => ({ source, strand: new Strand(latencySamples) })) : [];
  const mix = silence(pieceSamples);
  const gains = new Float32Array(pieceSamples);
  let start = -latencySamples;
  for (const raw of unlimited.pieces()) {
    addUp(raw, mix);
    amplify(mix.left, volume);
    amplify(mix.right, volume);
    gains.fill(1);
    for (const [index, { strand }] of strands.entries()) strand.lower(gains, raw[index] as StereoSound, volume);
    limiter.process(mix.left, mix.right, pieceSamples, gains);
    amplify(gains, volume);
    const from = Math.max(0, -start);
    const to = Math.min(pieceSamples, lengthFrames - start);
    const stems = strands.map(
      ({ source, strand }, index) => [source, cut(strand.limited(raw[index] as StereoSound, gains), from, to)] as const,
    );
    yield { mix: cut(mix, from, to), stems: new Map(stems) };
    start += pieceSamples;
  }
}
