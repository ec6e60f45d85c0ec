import {
  matchedGainDb,
  SoundMeter,
  stemsOf,
  type SoundLevels,
  type StemsOrder,
  type StemSource,
  type StereoSound,
} from '../music/index.ts';
import { openEncoder } from './encoder.ts';
import type { Encoder } from './encoding.ts';
import type { Sink } from './sink.ts';
import type { SoundFormat } from './sound-format.ts';

/** What one file holds: everything together, or a stem of it. */
export type FileSource = 'mix' | StemSource;

/** What is recorded. */
export interface RecordOrder {
  readonly stems: StemsOrder;
  /** Whether each line, the loose notes and the click get a file of their own beside the mix. */
  readonly hasStems: boolean;
  readonly format: SoundFormat;
  /** Null leaves the loudness as it is played. **Units** LUFS, of the mix. */
  readonly targetLufs: number | null;
}

/** A file that was made. */
export interface RecordedFile {
  readonly source: FileSource;
  readonly levels: SoundLevels;
}

/** What came of it. */
export interface Recorded {
  readonly files: readonly RecordedFile[];
  readonly lengthSeconds: number;
}

interface Track {
  readonly source: FileSource;
  readonly encoder: Encoder;
  readonly meter: SoundMeter;
}

const matchingShare = 0.4;
/** Work goes on without pause for so many pieces; then whoever waits gets a turn. */
const piecesPerTurn = 16;
const nextTurn = (): Promise<void> => new Promise((resolve) => void setTimeout(resolve, 0));

async function matched(order: RecordOrder, onShare: (share: number) => void): Promise<StemsOrder> {
  if (order.targetLufs === null) return order.stems;
  const matching = matchedGainDb(order.stems, order.targetLufs);
  let step = matching.next();
  for (let count = 1; step.done !== true; count += 1) {
    onShare(matchingShare * step.value);
    if (count % piecesPerTurn === 0) await nextTurn();
    step = matching.next();
  }
  return { ...order.stems, gainDb: step.value };
}

async function addPiece(track: Track, piece: StereoSound): Promise<void> {
  track.meter.add(piece);
  await track.encoder.add(piece);
}

/**
 * Records the mix, and its stems where they are wanted, each to the sink that `openSink` gives for it; all files begin
 * together and are equally long. `onShare` is told how much is done, 0 to 1.
 */
export async function recordSound(
  order: RecordOrder,
  openSink: (source: FileSource) => Sink,
  onShare: (share: number) => void,
): Promise<Recorded> {
  const stems = await matched(order, onShare);
  const { sources, lengthFrames, pieces } = stemsOf(stems);
  const { sampleRate } = stems;
  const tracks: Track[] = [];
  for (const source of ['mix' as const, ...(order.hasStems ? sources : [])]) {
    const encoder = await openEncoder({ format: order.format, sampleRate, lengthFrames }, openSink(source));
    tracks.push({ source, encoder, meter: new SoundMeter(sampleRate) });
  }
  const before = order.targetLufs === null ? 0 : matchingShare;
  let frames = 0;
  let count = 0;
  for (const piece of pieces()) {
    for (const track of tracks) {
      const sound = track.source === 'mix' ? piece.mix : piece.stems.get(track.source);
      if (sound !== undefined) await addPiece(track, sound);
    }
    frames += piece.mix.left.length;
    onShare(before + (1 - before) * (frames / lengthFrames));
    count += 1;
    if (count % piecesPerTurn === 0) await nextTurn();
  }
  const files: RecordedFile[] = [];
  for (const { source, encoder, meter } of tracks) {
    await encoder.finish();
    files.push({ source, levels: meter.finish() });
  }
  return { files, lengthSeconds: lengthFrames / sampleRate };
}
