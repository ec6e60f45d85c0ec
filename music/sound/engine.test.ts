import { describe, expect, it } from 'vitest';
import { dot, leastSquares, rms } from '../../tests/support/least-squares.ts';
import { hit, meter, note, voices } from '../../tests/support/score-builders.ts';
import { splitOf } from '../../tests/support/split-builders.ts';
import { lineId } from '../basis/ids.ts';
import type { Instrument, Performance } from '../perform/performance.ts';
import { performLines } from '../perform/perform-lines.ts';
import { blockSamples, plainMix } from './channel.ts';
import type { EngineMix } from './desk.ts';
import { SoundEngine } from './engine.ts';
import { dbOfGain } from './level.ts';
import { mixOfOnly, renderLines, renderPerformance } from './render-lines.ts';

const sampleRate = 48_000;
const melody = lineId('melody');
const bass = lineId('bass');
const at = (string: number, fret: number) => ({ string, fret });
const score = voices(
  meter(4, 4),
  [note('E4', 1, at(1, 0)), note('G4', 1, at(1, 3)), note('A4', 1, at(1, 5)), note('G4', 1, at(1, 3))],
  [note('E2', 2, at(6, 0)), note('A2', 2, at(5, 0))],
  [hit(2), hit(2, 'stringSlap')],
);
const split = splitOf({ melody: ['n1', 'n4', 'n5', 'n7'], bass: ['n2', 'n6'], taps: ['n3', 'n8'] });
const performance = performLines(score, split);
const lineIds = performance.lines;
const everybody = mixOfOnly(performance, lineIds, true);

interface Playing {
  readonly engine: SoundEngine;
  readonly left: Float32Array;
  readonly right: Float32Array;
}

function play(
  mix: EngineMix,
  blocks: number,
  during: (engine: SoundEngine, block: number) => void = () => undefined,
  what: Performance = performance,
): Playing {
  const engine = new SoundEngine(sampleRate);
  engine.setMix(mix);
  engine.load(what);
  engine.play(0, 0);
  const left = new Float32Array(blocks * blockSamples);
  const right = new Float32Array(blocks * blockSamples);
  for (let block = 0; block < blocks; block += 1) {
    during(engine, block);
    engine.process(
      left.subarray(block * blockSamples, (block + 1) * blockSamples),
      right.subarray(block * blockSamples, (block + 1) * blockSamples),
    );
  }
  return { engine, left, right };
}

const firstSound = (samples: Float32Array): number => samples.findIndex((value) => Math.abs(value) > 1e-5);
const difference = (a: Float32Array, b: Float32Array): Float32Array => a.map((value, index) => value - b[index]!);
/** How bright a sound is: its first differences, which grow by 6 dB an octave. */
const slope = (samples: Float32Array): number =>
  rms(samples.map((value, index) => (index === 0 ? 0 : value - samples[index - 1]!)));

/** The level above 8 kHz, by a windowed-sinc high-pass of 127 taps. */
function above8kHz(samples: Float32Array): number {
  const half = 63;
  const cut = 8000 / sampleRate;
  const taps = Array.from({ length: 2 * half + 1 }, (_, tap) => {
    const distance = tap - half;
    const window =
      0.42 + 0.5 * Math.cos((Math.PI * distance) / (half + 1)) + 0.08 * Math.cos((2 * Math.PI * distance) / (half + 1));
    const low = distance === 0 ? 2 * cut : Math.sin(2 * Math.PI * cut * distance) / (Math.PI * distance);
    return (distance === 0 ? 1 : 0) - low * window;
  });
  const filtered = new Float32Array(samples.length - 2 * half);
  for (const [at] of filtered.entries()) {
    let sum = 0;
    for (let tap = 0; tap < taps.length; tap += 1) sum += taps[tap]! * samples[at + tap]!;
    filtered[at] = sum;
  }
  return level(filtered);
}
const level = (samples: Float32Array): number => dbOfGain(rms(samples));

describe('the engine', () => {
  it('[R36] gives the same samples for the same calls', () => {
    const [first, second] = [play(everybody, 800), play(everybody, 800)];
    expect(second.left).toEqual(first.left);
    expect(second.right).toEqual(first.right);
    expect(level(first.left)).toBeGreaterThan(-40);
  });

  it('starts sounding within a millisecond of the event, after the limiter’s look-ahead', () => {
    const { left, engine } = play(everybody, 100);
    expect(firstSound(left)).toBeGreaterThanOrEqual(engine.latencySamples);
    expect(firstSound(left)).toBeLessThan(engine.latencySamples + 48);
  });

  it('[R39] renders lines that sum to the mix within −90 dBFS, with damping decided on all of them', () => {
    const mix = renderPerformance(performance, everybody, { sampleRate });
    const stems = [...renderLines(performance, { sampleRate }).values()];
    const sum = mix.left.map((_, index) => stems.reduce((total, stem) => total + stem.left[index]!, 0));
    const apart = difference(mix.left, sum).reduce((peak, value) => Math.max(peak, Math.abs(value)), 0);
    expect(dbOfGain(apart)).toBeLessThan(-90);
  });

  it('lets only the soloed line be heard: the others at −50 dB or less by least squares', () => {
    const columns = [...renderLines(performance, { sampleRate }).values()].map((stem) => stem.left);
    for (const [index, line] of lineIds.entries()) {
      const heard = renderPerformance(performance, mixOfOnly(performance, [line], false), { sampleRate }).left;
      const weights = leastSquares(columns, heard);
      expect(weights[index]!).toBeCloseTo(1, 6);
      for (const [other, weight] of weights.entries())
        if (other !== index) expect(dbOfGain(Math.abs(weight))).toBeLessThan(-50);
    }
  });

  it('is silent where everybody is muted', () => {
    expect(play(mixOfOnly(performance, [], false), 400).left.every((value) => value === 0)).toBe(true);
  });

  it('plays notes on no line unless a line is soloed', () => {
    const loose = performLines(score, splitOf({ melody: ['n1'] }));
    expect(level(renderPerformance(loose, mixOfOnly(loose, [], true), { sampleRate }).left)).toBeGreaterThan(-50);
    expect(
      renderPerformance(loose, mixOfOnly(loose, [], false), { sampleRate }).left.every((value) => value === 0),
    ).toBe(true);
  });

  it('[R38] mutes within 60 ms and without a click', () => {
    const hums = new Map<ReturnType<typeof lineId>, Instrument>([
      [melody, 'hum'],
      [bass, 'hum'],
    ]);
    const humming = performLines(score, splitOf({ melody: ['n1', 'n4', 'n5', 'n7'], bass: ['n2', 'n6'] }), {
      instruments: hums,
    });
    const only = mixOfOnly(humming, [melody], false);
    const silence = mixOfOnly(humming, [], false);
    const muteBlock = 150;
    const smooth = play(only, 200, (engine, block) => block === muteBlock && engine.setMix(silence), humming).left;
    const steady = play(only, 200, undefined, humming).left;
    const cut = steady.map((value, index) => (index < muteBlock * blockSamples ? value : 0));
    const around = (samples: Float32Array): Float32Array =>
      samples.subarray(muteBlock * blockSamples - 480, muteBlock * blockSamples + 1440);
    expect(above8kHz(around(cut))).toBeGreaterThan(-75);
    expect(above8kHz(around(smooth))).toBeLessThan(above8kHz(around(cut)) - 40);
    expect(above8kHz(around(smooth))).toBeLessThan(above8kHz(around(steady)) + 1);
    expect(level(smooth.subarray((muteBlock + 23) * blockSamples))).toBeLessThan(level(steady) - 20);
  });

  it('[R54] lets a line that is muted die away in the open strings too', () => {
    const muteBlock = 400;
    const silence = mixOfOnly(performance, [], false);
    const { left } = play(everybody, 800, (engine, block) => block === muteBlock && engine.setMix(silence));
    const after = (seconds: number): number => {
      const from = Math.round(muteBlock * blockSamples + seconds * sampleRate);
      return level(left.subarray(from, from + 4800));
    };
    expect(after(-0.1)).toBeGreaterThan(-45);
    expect(after(0.3)).toBeLessThan(after(-0.1) - 40);
  });

  it('keeps the fundamental of the lowest string of a bass', () => {
    const [e1] = performLines(voices(meter(4, 4), [note('E1', 4)]), splitOf({ bass: ['n1'] })).events;
    const bassAlone = { ...performance, lines: [bass], events: [e1!] };
    const { left } = renderPerformance(bassAlone, mixOfOnly(bassAlone, [bass], false), { sampleRate });
    const heard = left.subarray(4800, 4800 + 24_000);
    const partial = (hertz: number): number => {
      const wave = (shift: number): Float32Array =>
        heard.map((_, index) => Math.sin((2 * Math.PI * hertz * index) / sampleRate + shift));
      return dbOfGain(Math.hypot(dot(heard, wave(0)), dot(heard, wave(Math.PI / 2))) / heard.length);
    };
    expect(partial(41.2)).toBeGreaterThan(partial(82.4) - 4);
  });

  it('[R37] lets tails ring over the loop’s seam', () => {
    const loop = { startSeconds: 0, endSeconds: 1.2 };
    const looped = play(
      mixOfOnly(performance, [bass], false),
      1000,
      (engine, block) => block === 0 && engine.setLoop(loop),
    ).left;
    const seam = Math.round(1.2 * sampleRate) + 100;
    expect(level(looped.subarray(seam - 2000, seam - 100))).toBeGreaterThan(-50);
    expect(level(looped.subarray(seam - 100, seam + 400))).toBeGreaterThan(-50);
    const quiet = mixOfOnly(performance, [], false);
    const once = play(mixOfOnly(performance, [bass], false), 1000, (engine, block) => {
      if (block === 0)
        engine.setProgramme({
          passes: [
            { kind: 'play', lines: [{ line: bass, levelDb: 0 }] },
            { kind: 'silence', withClick: false },
          ],
          afterLast: 'stop',
        });
      if (block === 0) engine.setLoop(loop);
      if (block === 0) engine.play(0, 0);
      if (block === 999) engine.setMix(quiet);
    }).left;
    expect(level(once.subarray(seam, seam + 2000))).toBeGreaterThan(-60);
  });

  it('goes on from the same place when a new performance is loaded while playing', () => {
    const { engine } = play(
      everybody,
      300,
      (playing, block) => block === 150 && playing.load(performLines(score, split, { lines: [melody] })),
    );
    expect(engine.report.isPlaying).toBe(true);
    expect(engine.report.positionSeconds).toBeCloseTo((300 * blockSamples) / sampleRate, 6);
  });

  it('stops, and is quiet within half a second', () => {
    const { engine, left } = play(everybody, 800, (playing, block) => block === 300 && playing.stop());
    expect(engine.report.isPlaying).toBe(false);
    expect(level(left.subarray(left.length - 24_000))).toBeLessThan(-60);
  });

  it('sounds a single note at once, whatever is muted', () => {
    const engine = new SoundEngine(sampleRate);
    engine.setMix(mixOfOnly(performance, [], false));
    engine.load(performance);
    engine.auditionEvent(0);
    const [left, right] = [new Float32Array(blockSamples), new Float32Array(blockSamples)];
    for (let block = 0; block < 10; block += 1) engine.process(left, right);
    expect(dot(left, left)).toBeGreaterThan(0);
  });

  it('places a line left or right, and shades its tone', () => {
    const placed = (mix: Partial<typeof plainMix>) =>
      play(
        {
          lines: lineIds.map((line) => ({
            line,
            mix: { ...plainMix, isAudible: line === melody, ...(line === melody ? mix : {}) },
          })),
          loose: plainMix,
        },
        300,
      );
    const toTheLeft = placed({ place: -1 });
    expect(level(toTheLeft.left) - level(toTheLeft.right)).toBeGreaterThan(12);
    const [dark, plain, bright] = [-1, 0, 1]
      .map((tone) => placed({ tone }).left)
      .map((samples) => slope(samples) / rms(samples));
    expect(dark!).toBeLessThan(plain! * 0.88);
    expect(bright!).toBeGreaterThan(plain! * 1.12);
  });

  it('keeps everything at any level under the ceiling', () => {
    const loud: EngineMix = {
      lines: lineIds.map((line) => ({ line, mix: { ...plainMix, levelDb: 12 } })),
      loose: plainMix,
    };
    const { left } = play(loud, 1200, (engine, block) => block === 0 && engine.setVolume(12));
    expect(dbOfGain(left.reduce((peak, value) => Math.max(peak, Math.abs(value)), 0))).toBeLessThanOrEqual(-1);
  });
});
