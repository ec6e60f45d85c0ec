import { gainOfDb, volumeGainOf } from './level.ts';
import { Limiter } from './limiter.ts';
import { BlockPowers, loudnessOfBlocks } from './loudness.ts';
import { untouchedPeak } from './peak-watch.ts';
import { addUp, pieceSamples, silence, type UnlimitedStems } from './unlimited-stems.ts';

const mostGainDb = 24;
const mostRounds = 4;
/** From here one more step of the gain arrives, and need not be looked at. */
const nearLu = 0.15;
/** The more the limiter works, the less a gain adds; it is not believed that it adds less than this share. */
const leastSlope = 0.2;
/** What is measured beforehand is kept in 16 bits a sample, with 18 dB of room above full scale; its noise is far below any gate. */
const keptScale = 4096;
const mostKept = 32_767;
const playingShare = 0.8;

/** The mix without limiter, both sides of it, and what was found in it. */
interface KeptMix {
  readonly left: Int16Array;
  readonly right: Int16Array;
  readonly powers: readonly number[];
  readonly peak: number;
}

/** Keeps a piece of one side at a volume; the largest magnitude in it. */
function keep(samples: Float32Array, gain: number, kept: Int16Array, at: number): number {
  let peak = 0;
  const count = Math.min(samples.length, kept.length - at);
  for (let index = 0; index < count; index += 1) {
    const value = (samples[index] as number) * gain;
    samples[index] = value;
    peak = Math.max(peak, Math.abs(value));
    kept[at + index] = Math.min(mostKept, Math.max(-mostKept, Math.round(value * keptScale)));
  }
  return peak;
}

function* keptMixOf(unlimited: UnlimitedStems): Generator<number, KeptMix> {
  const { lengthFrames, order } = unlimited;
  const [left, right] = [new Int16Array(lengthFrames), new Int16Array(lengthFrames)];
  const powers = new BlockPowers(2, order.sampleRate);
  const volume = volumeGainOf(0);
  const mix = silence(pieceSamples);
  let peak = 0;
  let at = 0;
  for (const strands of unlimited.pieces()) {
    addUp(strands, mix);
    peak = Math.max(peak, keep(mix.left, volume, left, at), keep(mix.right, volume, right, at));
    const count = Math.max(0, Math.min(pieceSamples, lengthFrames - at));
    powers.add([mix.left.subarray(0, count), mix.right.subarray(0, count)]);
    at += pieceSamples;
    yield Math.min(1, at / lengthFrames);
  }
  return { left, right, powers: powers.powers(), peak };
}

function scale(kept: Int16Array, at: number, gain: number, scaled: Float32Array): void {
  for (let index = 0; index < scaled.length; index += 1) scaled[index] = (kept[at + index] as number) * gain;
}

/** How loud a mix is once it has gone through the limiter with a gain. **Units** LUFS. */
function limitedLoudness(mix: KeptMix, gainDb: number, sampleRate: number): number {
  const gain = gainOfDb(gainDb);
  if (mix.peak * gain <= untouchedPeak) return loudnessOfBlocks(mix.powers.map((power) => power * gain * gain));
  const limiter = new Limiter(sampleRate);
  const powers = new BlockPowers(2, sampleRate);
  const whole = silence(pieceSamples);
  for (let at = 0; at < mix.left.length; at += pieceSamples) {
    const count = Math.min(pieceSamples, mix.left.length - at);
    const piece = [whole.left.subarray(0, count), whole.right.subarray(0, count)] as const;
    scale(mix.left, at, gain / keptScale, piece[0]);
    scale(mix.right, at, gain / keptScale, piece[1]);
    limiter.process(...piece, count);
    powers.add(piece);
  }
  return loudnessOfBlocks(powers.powers());
}

const bounded = (gainDb: number): number => Math.min(mostGainDb, Math.max(-mostGainDb, gainDb));

/**
 * The gain that brings the mix to a loudness, the limiter's doing included; at most 24 dB up or down. A silent mix stays
 * as it is. Yields the share of the work that is done, and returns the gain. **Units** LUFS, decibels.
 */
export function* matchedGainDb(unlimited: UnlimitedStems, targetLufs: number): Generator<number, number> {
  const keeping = keptMixOf(unlimited);
  let step = keeping.next();
  for (; step.done !== true; step = keeping.next()) yield playingShare * step.value;
  const mix = step.value;
  const plainLufs = loudnessOfBlocks(mix.powers);
  if (!Number.isFinite(plainLufs)) return 0;
  let gainDb = bounded(targetLufs - plainLufs);
  let before: { readonly gainDb: number; readonly lufs: number } | null = null;
  for (let round = 0; round < mostRounds; round += 1) {
    const lufs = limitedLoudness(mix, gainDb, unlimited.order.sampleRate);
    yield playingShare + ((1 - playingShare) * (round + 1)) / mostRounds;
    if (!Number.isFinite(lufs)) return 0;
    const missingLu = targetLufs - lufs;
    const slope: number =
      before === null || before.gainDb === gainDb ? 1 : (lufs - before.lufs) / (gainDb - before.gainDb);
    before = { gainDb, lufs };
    gainDb = bounded(gainDb + missingLu / Math.min(1, Math.max(leastSlope, slope)));
    if (Math.abs(missingLu) < nearLu || gainDb === before.gainDb) break;
  }
  return gainDb;
}
