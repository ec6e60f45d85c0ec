import { integratedLoudness } from '../../dist/music/index.js';
import { powersOf } from './spectrum.js';

export const sampleRate = 48_000;
export const dbOf = (gain) => 20 * Math.log10(Math.max(1e-12, gain));
export const rmsOf = (samples) =>
  Math.sqrt(samples.reduce((sum, value) => sum + value * value, 0) / Math.max(1, samples.length));
/** The tuning formula: MIDI Tuning Standard, A4 (69) at 440 Hz. */
export const hertzOf = (midi) => 440 * 2 ** ((midi - 69) / 12);

/** How far the pitch is from the wanted one: the lag near some periods at which the sound is most like itself, refined by a parabola. */
export function pitchCents(samples, wantedMidi) {
  const wanted = hertzOf(wantedMidi);
  const periods = Math.max(1, Math.floor(0.04 * wanted));
  const middle = Math.round((sampleRate / wanted) * periods);
  const width = samples.length - middle - 8;
  if (width < middle) return NaN;
  const lags = Array.from({ length: 13 }, (_, index) => middle - 6 + index);
  const values = lags.map((lag) => likeness(samples, lag, width));
  const best = values.indexOf(Math.max(...values.slice(1, -1)));
  const shift = (values[best - 1] - values[best + 1]) / (2 * (values[best - 1] - 2 * values[best] + values[best + 1]));
  return 1200 * Math.log2((sampleRate * periods) / (lags[best] + shift) / wanted);
}

function likeness(samples, lag, width) {
  let product = 0;
  let here = 0;
  let there = 0;
  for (let at = 0; at < width; at += 1) {
    product += samples[at] * samples[at + lag];
    here += samples[at] ** 2;
    there += samples[at + lag] ** 2;
  }
  return product / Math.sqrt(here * there);
}

/** The moment near `seconds` after which the sound grows most within 3 ms, as a distance from it. **Units** milliseconds. */
export function riseMs(samples, seconds) {
  const span = Math.round(0.003 * sampleRate);
  let most = 0;
  let found = 0;
  for (let shift = -480; shift <= 480; shift += 6) {
    const at = Math.round(seconds * sampleRate) + shift;
    const growth =
      rmsOf(samples.subarray(at, at + span)) /
      (rmsOf(samples.subarray(Math.max(0, at - span), Math.max(1, at))) + 1e-4);
    if (growth > most) [most, found] = [growth, shift];
  }
  return (found / sampleRate) * 1000;
}

/** The balance point of the power spectrum in the 85 ms from `seconds` on, 40 Hz to 16 kHz. **Units** hertz. */
export function centroidHertz(samples, seconds) {
  const size = 4096;
  const from = Math.round(seconds * sampleRate);
  const powers = powersOf(samples.subarray(from, from + size), size);
  let weighted = 0;
  let sum = 0;
  powers.forEach((power, bin) => {
    const hertz = (bin * sampleRate) / size;
    if (hertz < 40 || hertz > 16_000) return;
    weighted += hertz * power;
    sum += power;
  });
  return sum === 0 ? 0 : weighted / sum;
}

/** Levels of what lies within about 12 Hz of `hertz`, every 20 ms. **Units** decibels. */
function levelsAt(samples, hertz) {
  const hop = Math.round(0.02 * sampleRate);
  const size = 4 * hop;
  const levels = [];
  for (let from = 0; from + size <= samples.length; from += hop) {
    let real = 0;
    let imaginary = 0;
    for (let index = 0; index < size; index += 1) {
      const value = samples[from + index] * (0.5 - 0.5 * Math.cos((2 * Math.PI * index) / size));
      const angle = (2 * Math.PI * hertz * (from + index)) / sampleRate;
      real += value * Math.cos(angle);
      imaginary += value * Math.sin(angle);
    }
    levels.push(dbOf((4 * Math.hypot(real, imaginary)) / size));
  }
  return levels;
}

/** How long a partial takes to fall by 60 dB, from the line that fits its first 25 dB best. **Units** seconds. */
export function ringSeconds(samples, hertz) {
  const levels = levelsAt(samples, hertz);
  const from = levels.indexOf(Math.max(...levels));
  const after = levels.findIndex((level, index) => index > from && level < levels[from] - 25);
  const fitted = levels.slice(from, after < 0 ? levels.length : after);
  const middle = (fitted.length - 1) / 2;
  const mean = fitted.reduce((sum, level) => sum + level, 0) / fitted.length;
  let slope = 0;
  let spread = 0;
  fitted.forEach((level, index) => {
    slope += (index - middle) * (level - mean);
    spread += (index - middle) ** 2;
  });
  return -60 / (slope / spread / 0.02);
}

/** How long the whole takes to fall by 20 dB from its peak, in steps of 5 ms. **Units** seconds. */
export function fallSeconds(samples) {
  const hop = Math.round(0.005 * sampleRate);
  const levels = Array.from({ length: Math.floor(samples.length / hop) }, (_, index) =>
    dbOf(rmsOf(samples.subarray(index * hop, index * hop + 2 * hop))),
  );
  const peak = levels.indexOf(Math.max(...levels));
  const after = levels.findLastIndex((level) => level > levels[peak] - 20);
  return (after - peak) * 0.005;
}

/** Loudness of the first second by BS.1770. **Units** LUFS. */
export const loudnessOf = ({ left, right }) =>
  integratedLoudness([left.subarray(0, sampleRate), right.subarray(0, sampleRate)], sampleRate);
