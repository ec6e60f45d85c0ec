import { ALL_FORMATS, AudioSampleSink, BufferSource, Input } from 'mediabunny';
import { describe, expect, it } from 'vitest';
import { Noise } from './noise.ts';
import { samples24Of, wavBytesOf, wavHead } from './wav.ts';

const noise = new Noise();
const side = (seed: number): Float32Array => {
  noise.reseed(seed);
  return Float32Array.from({ length: 1000 }, () => 0.9 * noise.next());
};

function wavOf(left: Float32Array, right: Float32Array): Uint8Array<ArrayBuffer> {
  const head = wavHead(left.length, 44_100);
  const body = wavBytesOf(samples24Of({ left, right }));
  const bytes = new Uint8Array(head.length + body.length);
  bytes.set(head);
  bytes.set(body, head.length);
  return bytes;
}

describe('a WAV file', () => {
  it('has the head that the specification prints, byte for byte (RIFF, WAVE_FORMAT_PCM, 24 bits)', () => {
    const head = Buffer.from(wavHead(3, 48_000));
    expect(head.toString('latin1', 0, 4)).toBe('RIFF');
    expect(head.readUInt32LE(4)).toBe(36 + 18);
    expect(head.toString('latin1', 8, 16)).toBe('WAVEfmt ');
    expect([head.readUInt32LE(16), head.readUInt16LE(20), head.readUInt16LE(22)]).toEqual([16, 1, 2]);
    expect([head.readUInt32LE(24), head.readUInt32LE(28)]).toEqual([48_000, 288_000]);
    expect([head.readUInt16LE(32), head.readUInt16LE(34)]).toEqual([6, 24]);
    expect([head.toString('latin1', 36, 40), head.readUInt32LE(40), head.length]).toEqual(['data', 18, 44]);
  });

  it('is read back by mediabunny with every sample within half a step of 24 bits', async () => {
    const [left, right] = [side(1), side(2)];
    const input = new Input({ source: new BufferSource(wavOf(left, right).buffer), formats: ALL_FORMATS });
    const track = (await input.getPrimaryAudioTrack())!;
    expect([await track.getCodec(), await track.getNumberOfChannels(), await track.getSampleRate()]).toEqual([
      'pcm-s24',
      2,
      44_100,
    ]);
    let at = 0;
    for await (const sample of new AudioSampleSink(track).samples()) {
      for (const [planeIndex, wanted] of [left, right].entries()) {
        const plane = new Float32Array(sample.numberOfFrames);
        sample.copyTo(plane, { planeIndex, format: 'f32-planar' });
        for (const [index, value] of plane.entries())
          expect(Math.abs(value - wanted[at + index]!)).toBeLessThanOrEqual(2 ** -24 + 2 ** -25);
      }
      at += sample.numberOfFrames;
      sample.close();
    }
    expect(at).toBe(1000);
  });

  it('takes what is beyond full scale as full scale', () => {
    expect([...samples24Of({ left: Float32Array.of(2, -2), right: Float32Array.of(1, -1) })]).toEqual([
      8_388_607, 8_388_607, -8_388_608, -8_388_608,
    ]);
  });
});
