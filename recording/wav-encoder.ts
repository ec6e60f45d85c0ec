import { mostWavFrames, samples24Of, wavBytesOf, wavHead } from '../music/index.ts';
import type { Encoder, EncoderOrder } from './encoding.ts';
import type { Sink } from './sink.ts';

/** Writes 24-bit WAV as it comes. */
export function openWav({ sampleRate, lengthFrames }: EncoderOrder, sink: Sink): Encoder {
  if (lengthFrames > mostWavFrames) throw new Error('The sound is longer than a WAV file can be; FLAC can hold it.');
  const head = wavHead(lengthFrames, sampleRate);
  sink.write(head, 0);
  let at = head.length;
  return {
    add: (piece) => {
      const bytes = wavBytesOf(samples24Of(piece));
      sink.write(bytes, at);
      at += bytes.length;
      return Promise.resolve();
    },
    finish: () => Promise.resolve(),
  };
}
