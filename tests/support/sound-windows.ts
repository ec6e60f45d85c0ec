import { dot } from './least-squares.ts';

/** A signal cut into windows of equal length; what is left over at its end is dropped. */
export const windowsOf = (signal: Float32Array, length: number): readonly Float32Array[] =>
  Array.from({ length: Math.floor(signal.length / length) }, (_, index) =>
    signal.subarray(index * length, (index + 1) * length),
  );

/** What of a signal lies above 8 kHz: a Butterworth high-pass of second order, twice. **Source** bilinear transform, R. Bristow-Johnson's cookbook. */
export function above8kHz(signal: Float32Array, sampleRate: number): Float32Array {
  return highPass(highPass(signal, sampleRate), sampleRate);
}

function highPass(signal: Float32Array, sampleRate: number): Float32Array {
  const angle = (2 * Math.PI * 8000) / sampleRate;
  const [cosine, alpha] = [Math.cos(angle), Math.sin(angle) / Math.SQRT2];
  const scale = 1 / (1 + alpha);
  const out = new Float32Array(signal.length);
  let [x1, x2, y1, y2] = [0, 0, 0, 0];
  for (const [index, x] of signal.entries()) {
    const y = scale * (((1 + cosine) / 2) * (x - 2 * x1 + x2) + 2 * cosine * y1 - (1 - alpha) * y2);
    [x2, x1, y2, y1] = [x1, x, y1, y];
    out[index] = y;
  }
  return out;
}

/** How many samples later than expected a sound is found, where it fits best within some samples either way. */
export function lagOf(sound: Float32Array, heard: Float32Array, expected: number, reach: number): number {
  let best = { lag: 0, fit: -Infinity };
  for (let lag = -reach; lag <= reach; lag += 1) {
    const at = expected + lag;
    if (at < 0) continue;
    const part = heard.subarray(at, at + sound.length);
    const fit = dot(part, sound) / Math.sqrt(Math.max(1e-12, dot(part, part)));
    if (fit > best.fit) best = { lag, fit };
  }
  return best.lag;
}
