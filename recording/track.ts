import { SoundMeter, type SoundLevels, type StereoSound } from '../music/index.ts';
import { openEncoder } from './encoder.ts';
import type { EncoderOrder } from './encoding.ts';
import type { Sink } from './sink.ts';

/** Where one sound goes, piece by piece, on its way into a file. */
export interface Track {
  /** Takes the next piece; its samples may change once the promise is kept. */
  readonly add: (piece: StereoSound) => Promise<void>;
  /** Ends the file; how loud it came out. */
  readonly finish: () => Promise<SoundLevels>;
}

/** A track that is encoded and measured as it comes. **Errors** throws where the sound is longer than the format can hold. */
export async function openTrack(order: EncoderOrder, sink: Sink): Promise<Track> {
  const encoder = await openEncoder(order, sink);
  const meter = new SoundMeter(order.sampleRate);
  return {
    add: (piece) => {
      meter.add(piece);
      return encoder.add(piece);
    },
    finish: async () => {
      await encoder.finish();
      return meter.finish();
    },
  };
}
