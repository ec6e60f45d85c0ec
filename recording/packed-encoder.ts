import type { StreamTargetChunk } from 'mediabunny';
import { samples24Of } from '../music/index.ts';
import type { Encoder, EncoderOrder } from './encoding.ts';
import type { Sink } from './sink.ts';
import type { SoundFormat } from './sound-format.ts';

/** Enough that nobody hears the loss. **Units** bits a second. Common practice, no source. */
const mp3BitsPerSecond = 256_000;
const unusedBits = 8;

/** Writes FLAC of the very samples that WAV would have, or MP3. The encoders are fetched when first needed. */
export async function openPacked(
  format: Exclude<SoundFormat, 'wav'>,
  { sampleRate }: EncoderOrder,
  sink: Sink,
): Promise<Encoder> {
  const { AudioSample, AudioSampleSource, FlacOutputFormat, Mp3OutputFormat, Output, Quality, StreamTarget } =
    await import('mediabunny');
  await (format === 'flac' ? registerFlac() : registerMp3());
  const target = new StreamTarget(
    new WritableStream<StreamTargetChunk>({ write: ({ data, position }) => sink.write(data, position) }),
  );
  const output = new Output({ format: format === 'flac' ? new FlacOutputFormat() : new Mp3OutputFormat(), target });
  const source = new AudioSampleSource(
    format === 'flac'
      ? { codec: 'flac' }
      : { codec: 'mp3', quality: new Quality({ bitrate: mp3BitsPerSecond, bitrateMode: 'constant' }) },
  );
  output.addAudioTrack(source);
  await output.start();
  let frames = 0;
  return {
    add: async (piece) => {
      const data = samples24Of(piece).map((value) => value << unusedBits);
      const sample = new AudioSample({
        data,
        format: 's32',
        numberOfChannels: 2,
        sampleRate,
        timestamp: frames / sampleRate,
      });
      frames += piece.left.length;
      await source.add(sample);
      sample.close();
    },
    finish: async () => {
      source.close();
      await output.finalize();
    },
  };
}

let flac: Promise<void> | null = null;
let mp3: Promise<void> | null = null;

const registerFlac = (): Promise<void> =>
  (flac ??= import('@mediabunny/flac-encoder').then(({ registerFlacEncoder }) => registerFlacEncoder()));
const registerMp3 = (): Promise<void> =>
  (mp3 ??= import('@mediabunny/mp3-encoder').then(({ registerMp3Encoder }) => registerMp3Encoder()));
