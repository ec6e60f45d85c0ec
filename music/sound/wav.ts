import type { StereoSound } from './render-lines.ts';

const fullScale = 8_388_608;
const bytesPerSample = 3;
const channelCount = 2;
const headerBytes = 44;
const pcmTag = 1;

/** The most frames that a WAV file can hold: its sizes are 32-bit numbers. */
export const mostWavFrames = Math.floor((0xffff_ffff - headerBytes) / (bytesPerSample * channelCount));

/** Samples as whole numbers of 24 bits, left and right in turn; what is beyond full scale is taken as full scale. */
export function samples24Of({ left, right }: StereoSound): Int32Array {
  const whole = new Int32Array(left.length * channelCount);
  const rounded = (value: number): number =>
    Math.min(fullScale - 1, Math.max(-fullScale, Math.round(value * fullScale)));
  for (let index = 0; index < left.length; index += 1) {
    whole[2 * index] = rounded(left[index] as number);
    whole[2 * index + 1] = rounded(right[index] as number);
  }
  return whole;
}

/**
 * The head of a stereo WAV file of 24-bit samples; exactly `frameCount` frames must follow.
 * **Source** Multimedia Programming Interface and Data Specifications 1.0 (IBM and Microsoft, 1991), WAVE form, `WAVE_FORMAT_PCM`.
 */
export function wavHead(frameCount: number, sampleRate: number): Uint8Array {
  const dataBytes = frameCount * channelCount * bytesPerSample;
  const bytes = new Uint8Array(headerBytes);
  const view = new DataView(bytes.buffer);
  const tag = (at: number, text: string): void => {
    for (let index = 0; index < 4; index += 1) bytes[at + index] = text.charCodeAt(index);
  };
  tag(0, 'RIFF');
  view.setUint32(4, headerBytes - 8 + dataBytes, true);
  tag(8, 'WAVE');
  tag(12, 'fmt ');
  view.setUint32(16, 16, true);
  view.setUint16(20, pcmTag, true);
  view.setUint16(22, channelCount, true);
  view.setUint32(24, sampleRate, true);
  view.setUint32(28, sampleRate * channelCount * bytesPerSample, true);
  view.setUint16(32, channelCount * bytesPerSample, true);
  view.setUint16(34, 8 * bytesPerSample, true);
  tag(36, 'data');
  view.setUint32(40, dataBytes, true);
  return bytes;
}

/** Whole numbers of 24 bits as the three bytes each that a WAV file has, the least first. */
export function wavBytesOf(samples: Int32Array): Uint8Array {
  const bytes = new Uint8Array(samples.length * bytesPerSample);
  for (let index = 0, at = 0; index < samples.length; index += 1, at += bytesPerSample) {
    const value = samples[index] as number;
    bytes[at] = value & 255;
    bytes[at + 1] = (value >> 8) & 255;
    bytes[at + 2] = (value >> 16) & 255;
  }
  return bytes;
}
