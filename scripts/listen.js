// `node scripts/listen.js [LETTER] [COUNT]`: listens to the demo with numbers, after a build. Each line's loudness and peak; for one line
// (M by default) what the first notes were asked to be and what is found in the sound: rise at the onset, pitch, level.
import { integratedLoudness, renderLines } from '../dist/music/index.js';
import { truePeakOf } from '../dist/music/sound/true-peak.js';
import { demoPerformance } from './bench/demo-song.js';
import { dbOf, pitchCents, riseMs, rmsOf, sampleRate } from './sounds/measures.js';

const [letter = 'M', count = '16'] = process.argv.slice(2);
const performance = demoPerformance();
const renders = renderLines(performance, { sampleRate });
for (const [line, { left, right }] of renders) {
  console.log(
    `${line}  ${integratedLoudness([left, right], sampleRate).toFixed(1)} LUFS  ${dbOf(truePeakOf(left)).toFixed(1)} dBTP`,
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
    `${event.onsetSeconds.toFixed(3)} s  rise ${riseMs(heard, event.onsetSeconds).toFixed(1)} ms  ${pitch}  strength ${event.strength.toFixed(2)}  ${dbOf(rmsOf(sound)).toFixed(1)} dBFS`,
  );
}
