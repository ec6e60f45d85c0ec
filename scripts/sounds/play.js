import { blockSamples, lineId, plainMix, SoundEngine } from '../../dist/music/index.js';
import { sampleRate } from './measures.js';

const line = lineId('heard');

/** One event of a line of its own. */
export const sounded = (voice, more = {}) => ({
  note: 'n1',
  line,
  onsetTicks: 0,
  onsetSeconds: 0,
  ringSeconds: 6,
  strength: 0.6,
  string: null,
  fret: null,
  glide: [],
  voice,
  ...more,
});

export const pitched = (instrument, midi, stroke = 'pluck', more = {}) =>
  sounded({ kind: 'pitched', instrument, midi, stroke }, more);

export const struck = (hit) => sounded({ kind: 'hit', hit });

/** What the whole engine makes of some events or clicks, without the limiter's delay. */
export function play({ events = [], clicks = [] }, seconds) {
  const engine = new SoundEngine(sampleRate);
  engine.setMix({ lines: [{ line, mix: plainMix }], loose: plainMix });
  engine.load({
    lines: [line],
    events,
    lengthSeconds: seconds,
    timeMap: {
      segments: [
        { startTicks: 0, endTicks: seconds * 1000, startSeconds: 0, secondsPerTick: 0.001, tempoSecondsPerTick: 0.001 },
      ],
      lengthSeconds: seconds,
    },
    bars: [],
    clicks,
    ranges: [],
    tuning: null,
    notes: [],
  });
  engine.setClick({ isOn: clicks.length > 0, subdivision: 1 });
  engine.play(0, 0);
  const blocks = Math.ceil((seconds * sampleRate + engine.latencySamples) / blockSamples);
  const left = new Float32Array(blocks * blockSamples);
  const right = new Float32Array(blocks * blockSamples);
  for (let at = 0; at < left.length; at += blockSamples)
    engine.process(left.subarray(at, at + blockSamples), right.subarray(at, at + blockSamples));
  return { left: left.subarray(engine.latencySamples), right: right.subarray(engine.latencySamples) };
}
