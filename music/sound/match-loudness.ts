import { gainOfDb } from './level.ts';
import { Limiter } from './limiter.ts';
import { BlockPowers, loudnessOfBlocks } from './loudness.ts';
import { mixPieces, renderedSeconds, type StemsOrder } from './stems.ts';

const mostGainDb = 24;
const mostRounds = 4;
const nearLu = 0.05;
/** What is measured beforehand is kept in 16 bits a sample, with 18 dB of room above full scale; its noise is far below any gate. */
const keptScale = 4096;
const mostKept = 32_767;

interface KeptSound {
  readonly left: Int16Array;
  readonly right: Int16Array;
}

function keep(sound: Float32Array, kept: Int16Array, at: number): void {
  for (let index = 0; index < sound.length; index += 1)
    kept[at + index] = Math.min(mostKept, Math.max(-mostKept, Math.round((sound[index] as number) * keptScale)));
}

const pieceSamples = 8192;

/** How loud kept sound is once it has gone through the limiter with a gain. **Units** LUFS. */
function limitedLoudness({ left, right }: KeptSound, gainDb: number, sampleRate: number): number {
  const limiter = new Limiter(sampleRate);
  const powers = new BlockPowers(2, sampleRate);
  const gain = gainOfDb(gainDb) / keptScale;
  for (let at = 0; at < left.length; at += pieceSamples) {
    const scaled = (side: Int16Array): Float32Array =>
      Float32Array.from(side.subarray(at, at + pieceSamples), (value) => value * gain);
    const piece = [scaled(left), scaled(right)] as const;
    limiter.process(...piece, piece[0].length);
    powers.add(piece);
  }
  return loudnessOfBlocks(powers.powers());
}

/**
 * The gain that brings the mix of an order to a loudness, the limiter's doing included; at most 24 dB up or down from
 * the order's own. A silent mix stays as it is. Yields the share of the work that is done, and returns the gain.
 * **Units** LUFS, decibels.
 */
export function* matchedGainDb(order: StemsOrder, targetLufs: number): Generator<number, number> {
  const length = Math.ceil(renderedSeconds(order) * order.sampleRate);
  const kept: KeptSound = { left: new Int16Array(length), right: new Int16Array(length) };
  const soft: StemsOrder = { ...order, gainDb: order.gainDb - mostGainDb };
  const loud = gainOfDb(mostGainDb);
  let at = 0;
  for (const { left, right } of mixPieces(soft)) {
    keep(
      left.map((value) => value * loud),
      kept.left,
      at,
    );
    keep(
      right.map((value) => value * loud),
      kept.right,
      at,
    );
    at += left.length;
    yield (0.8 * at) / length;
  }
  let addedDb = 0;
  for (let round = 0; round < mostRounds; round += 1) {
    const missingLu = targetLufs - limitedLoudness(kept, addedDb, order.sampleRate);
    yield 0.8 + (0.2 * (round + 1)) / mostRounds;
    if (!Number.isFinite(missingLu)) return order.gainDb;
    addedDb = Math.min(mostGainDb, Math.max(-mostGainDb, addedDb + missingLu));
    if (Math.abs(missingLu) < nearLu) break;
  }
  return order.gainDb + addedDb;
}
