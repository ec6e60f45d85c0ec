const blockSamples = 128;

interface Renderer {
  render(out: Float32Array, from: number, to: number, rate: number): void;
}

/** What a voice sounds like for so long, block by block. */
export function heard(voice: Renderer, sampleRate: number, seconds: number, rate = 1): Float32Array {
  const out = new Float32Array(Math.ceil((seconds * sampleRate) / blockSamples) * blockSamples);
  for (let at = 0; at < out.length; at += blockSamples) voice.render(out, at, at + blockSamples, rate);
  return out;
}

/** The tuning formula: MIDI Tuning Standard, A4 (69) at 440 Hz. */
export const hertzOf = (midi: number): number => 440 * 2 ** ((midi - 69) / 12);
export const centsFrom = (hertz: number, wanted: number): number => 1200 * Math.log2(hertz / wanted);

function likeness(samples: Float32Array, lag: number, width: number): number {
  let product = 0;
  let here = 0;
  let there = 0;
  for (let index = 0; index < width; index += 1) {
    product += samples[index]! * samples[index + lag]!;
    here += samples[index]! ** 2;
    there += samples[index + lag]! ** 2;
  }
  return product / Math.sqrt(here * there);
}

/** The pitch by autocorrelation over many periods, the peak found by a parabola. */
export function pitchByAutocorrelation(samples: Float32Array, sampleRate: number, near: number): number {
  const periods = Math.max(1, Math.min(12, Math.floor(0.1 * near)));
  const middle = Math.round((sampleRate / near) * periods);
  const width = Math.round(sampleRate * 0.15);
  const values = [-3, -2, -1, 0, 1, 2, 3].map((shift) => likeness(samples, middle + shift, width));
  const best = values.indexOf(Math.max(...values));
  const [before, at, after] = [values[best - 1]!, values[best]!, values[best + 1]!];
  const part = (before - after) / (2 * (before - 2 * at + after));
  return (sampleRate * periods) / (middle + best - 3 + part);
}

/** The largest second difference: a step or a corner in a wave is the largest of all. */
export function sharpest(samples: Float32Array): number {
  let most = 0;
  for (let index = 2; index < samples.length; index += 1)
    most = Math.max(most, Math.abs(samples[index]! - 2 * samples[index - 1]! + samples[index - 2]!));
  return most;
}

/** How much of a sound is at high frequencies: the energy of its first differences over its own. */
export function roughness(samples: Float32Array): number {
  let slope = 0;
  let energy = 0;
  for (let index = 1; index < samples.length; index += 1) {
    slope += (samples[index]! - samples[index - 1]!) ** 2;
    energy += samples[index]! ** 2;
  }
  return slope / energy;
}

/** The strength of what lies near one frequency in the 80 ms from `seconds` on. */
function strengthAt(samples: Float32Array, sampleRate: number, hertz: number, seconds: number): number {
  const from = Math.round(seconds * sampleRate);
  const width = Math.round(0.08 * sampleRate);
  let [cosine, sine] = [0, 0];
  for (let index = 0; index < width; index += 1) {
    const value = samples[from + index]! * (1 - Math.cos((2 * Math.PI * index) / width));
    const angle = (2 * Math.PI * hertz * index) / sampleRate;
    cosine += value * Math.cos(angle);
    sine += value * Math.sin(angle);
  }
  return Math.hypot(cosine, sine);
}

/** How long a partial would take to fall by 60 dB at the pace of its fall from 0.05 s to `untilSeconds`. */
export function fadeSeconds(samples: Float32Array, sampleRate: number, hertz: number, untilSeconds: number): number {
  const start = 0.05;
  const fallen =
    strengthAt(samples, sampleRate, hertz, start) / strengthAt(samples, sampleRate, hertz, untilSeconds - 0.08);
  return (60 * (untilSeconds - 0.08 - start)) / (20 * Math.log10(fallen));
}
