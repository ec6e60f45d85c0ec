// `node scripts/listen.js [LETTER] [COUNT]`: listens to the demo with numbers, after a build. Each line's loudness and peak; for one line
// (M by default) what the first notes were asked to be and what is found in the sound: rise at the onset, pitch, level.
import { integratedLoudness, renderLines } from '../dist/music/index.js';
import { truePeakOf } from '../dist/music/sound/true-peak.js';
import { demoPerformance } from './bench/sounding.js';

const sampleRate = 48_000;
const db = (gain) => 20 * Math.log10(Math.max(1e-12, gain));
const rms = (samples) =>
  Math.sqrt(samples.reduce((sum, value) => sum + value * value, 0) / Math.max(1, samples.length));

/** The lag near one period at which the sound is most like itself, refined by a parabola. */
function pitchCents(samples, wantedMidi) {
  const wanted = 440 * 2 ** ((wantedMidi - 69) / 12);
  const periods = Math.max(1, Math.floor(0.04 * wanted));
  const middle = Math.round((sampleRate / wanted) * periods);
  const width = samples.length - middle - 8;
  if (width < middle) return NaN;
  const likeness = (lag) => {
    let product = 0;
    let here = 0;
    let there = 0;
    for (let at = 0; at < width; at += 1) {
      product += samples[at] * samples[at + lag];
      here += samples[at] ** 2;
      there += samples[at + lag] ** 2;
    }
    return product / Math.sqrt(here * there);
  };
  const lags = Array.from({ length: 13 }, (_, index) => middle - 6 + index);
  const values = lags.map(likeness);
  const best = values.indexOf(Math.max(...values.slice(1, -1)));
  const shift = (values[best - 1] - values[best + 1]) / (2 * (values[best - 1] - 2 * values[best] + values[best + 1]));
  return 1200 * Math.log2((sampleRate * periods) / (lags[best] + shift) / wanted);
}

/** The moment near `seconds` after which the sound grows most within 3 ms, as a distance from it. **Units** milliseconds. */
function riseMs(samples, seconds) {
  const span = Math.round(0.003 * sampleRate);
  let most = 0;
  let found = 0;
  for (let shift = -480; shift <= 480; shift += 6) {
    const at = Math.round(seconds * sampleRate) + shift;
    const growth =
      rms(samples.subarray(at, at + span)) / (rms(samples.subarray(Math.max(0, at - span), Math.max(1, at))) + 1e-4);
    if (growth > most) [most, found] = [growth, shift];
  }
  return (found / sampleRate) * 1000;
}

const [letter = 'M', count = '16'] = process.argv.slice(2);
const performance = demoPerformance();
const renders = renderLines(performance, { sampleRate });
for (const [line, { left, right }] of renders) {
  console.log(
    `${line}  ${integratedLoudness([left, right], sampleRate).toFixed(1)} LUFS  ${db(truePeakOf(left)).toFixed(1)} dBTP`,
  );
}
const heard = renders.get(letter)?.left;
if (heard === undefined) throw new Error(`No line ${letter}; there are ${performance.lines.join(', ')}`);
for (const event of performance.events.filter(({ line }) => line === letter).slice(0, Number(count))) {
  const from = Math.round((event.onsetSeconds + 0.06) * sampleRate);
  const sound = heard.subarray(
    from,
    from + Math.round(Math.min(0.3, Math.max(0.05, event.ringSeconds - 0.06)) * sampleRate),
  );
  const pitch =
    event.voice.kind === 'pitched'
      ? `MIDI ${event.voice.midi} ${pitchCents(sound, event.voice.midi).toFixed(2)} cents`
      : event.voice.hit;
  console.log(
    `${event.onsetSeconds.toFixed(3)} s  rise ${riseMs(heard, event.onsetSeconds).toFixed(1)} ms  ${pitch}  strength ${event.strength.toFixed(2)}  ${db(rms(sound)).toFixed(1)} dBFS`,
  );
}
