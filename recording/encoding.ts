import type { StereoSound } from '../music/index.ts';
import type { SoundFormat } from './sound-format.ts';

/** Makes a file of sound that comes piece by piece. */
export interface Encoder {
  /** Takes the next piece; its samples may change once the promise is kept. */
  readonly add: (piece: StereoSound) => Promise<void>;
  readonly finish: () => Promise<void>;
}

/** What an encoder has to know beforehand. */
export interface EncoderOrder {
  readonly format: SoundFormat;
  readonly sampleRate: number;
  readonly lengthFrames: number;
}
