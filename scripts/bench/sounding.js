import { renderPerformance, SoundEngine, mixOfOnly } from '../../dist/music/index.js';
import { demoPerformance } from './demo-song.js';
import { medianMs, row, shown } from './measure.js';

const sampleRate = 48_000;
const blockSamples = 128;

function blockTimes(performance_, mix) {
  const engine = new SoundEngine(sampleRate);
  engine.setMix(mix);
  engine.load(performance_);
  engine.setLoop({ startSeconds: 0, endSeconds: performance_.lengthSeconds });
  engine.play(0, 0);
  const left = new Float32Array(blockSamples);
  const right = new Float32Array(blockSamples);
  for (let block = 0; block < 20_000; block += 1) engine.process(left, right);
  globalThis.gc?.();
  const heapBefore = process.memoryUsage().heapUsed;
  const times = new Float64Array(20_000);
  for (let block = 0; block < times.length; block += 1) {
    const startedAt = performance.now();
    engine.process(left, right);
    times[block] = performance.now() - startedAt;
  }
  globalThis.gc?.();
  return { times: times.sort(), grownBytes: process.memoryUsage().heapUsed - heapBefore };
}

/** The engine's speed, alone in this process. */
export function bench() {
  const played = demoPerformance();
  const mix = mixOfOnly(played, played.lines, true);
  const renderMs = medianMs(() => renderPerformance(played, mix, { sampleRate }));
  const realTimes = ((played.lengthSeconds + 2) * 1000) / renderMs;
  const { times, grownBytes } = blockTimes(played, mix);
  const p99 = times[Math.floor(times.length * 0.99)];
  const halfBlock = (blockSamples / sampleRate / 2) * 1000;
  return [
    row('sound of four lines, one core', '≥ 50× real time', `${shown(realTimes)}×`, realTimes >= 50),
    row('process(), p99 of 20,000 warmed blocks', `< ${shown(halfBlock)} ms`, `${p99.toFixed(3)} ms`, p99 < halfBlock),
    row(
      'heap grown over them',
      'none',
      `${shown(Math.max(0, grownBytes) / 1024)} kB`,
      globalThis.gc ? grownBytes < 64 * 1024 : null,
    ),
  ];
}
