import { describe, expect, it } from 'vitest';
import { lineId } from '../basis/ids.ts';
import { performLines } from '../perform/perform-lines.ts';
import { meter, note, rest, voices } from '../../tests/support/score-builders.ts';
import { splitOf } from '../../tests/support/split-builders.ts';
import { outsideLoudness, outsideTruePeakDb } from '../../tests/support/outside-loudness.ts';
import { plainMix } from './channel.ts';
import { silentClick } from './clicks.ts';
import type { EngineMix } from './desk.ts';
import { dbOfGain } from './level.ts';
import type { StereoSound } from './render-lines.ts';
import { matchedGainDb } from './match-loudness.ts';
import { SoundMeter } from './sound-meter.ts';
import { limitedStems } from './stems.ts';
import type { StemsOrder, StemSource } from './stems-order.ts';
import { UnlimitedStems } from './unlimited-stems.ts';

const sampleRate = 44_100;
const [melody, bass] = [lineId('melody'), lineId('bass')];
const score = voices(
  meter(4, 4),
  [note('E4', 1), note('G4', 1), note('A4', 1), note('B4', 1)],
  [note('E2', 2), note('B2', 2)],
  [rest(1), note('G3', 1), rest(1), note('D4', 1)],
);
const performance = performLines(score, splitOf({ melody: ['n1', 'n4', 'n5', 'n7'], bass: ['n2', 'n6'] }));
const everybody: EngineMix = { lines: [], loose: plainMix };
const order: StemsOrder = {
  performance,
  mix: everybody,
  sampleRate,
  rate: 1,
  countInBars: 0,
  click: silentClick,
};

interface Rendered {
  readonly mix: StereoSound;
  readonly stems: ReadonlyMap<StemSource, StereoSound>;
}

const emptySound = (frames: number): StereoSound => ({
  left: new Float32Array(frames),
  right: new Float32Array(frames),
});

const divided = { isDivided: true, mostKeptBytes: 0 };

/** All pieces put together. */
function rendered(asked: StemsOrder, gainDb = 0, unlimited = new UnlimitedStems(asked, divided)): Rendered {
  const { sources, lengthFrames } = unlimited;
  const whole: Rendered = {
    mix: emptySound(lengthFrames),
    stems: new Map(sources.map((source) => [source, emptySound(lengthFrames)])),
  };
  let at = 0;
  for (const piece of limitedStems(unlimited, gainDb)) {
    whole.mix.left.set(piece.mix.left, at);
    whole.mix.right.set(piece.mix.right, at);
    for (const [source, { left, right }] of piece.stems) {
      whole.stems.get(source)!.left.set(left, at);
      whole.stems.get(source)!.right.set(right, at);
    }
    at += piece.mix.left.length;
  }
  expect(at).toBe(lengthFrames);
  return whole;
}

const peakOf = (samples: Float32Array): number => samples.reduce((peak, value) => Math.max(peak, Math.abs(value)), 0);

/** How far the sum of all stems is from the mix. **Units** decibels relative to full scale. */
function apartDb({ mix, stems }: Rendered): number {
  const rest = (side: 'left' | 'right'): Float32Array =>
    mix[side].map((value, index) => value - [...stems.values()].reduce((sum, stem) => sum + stem[side][index]!, 0));
  return dbOfGain(Math.max(peakOf(rest('left')), peakOf(rest('right'))));
}

const isSame = (one: StereoSound, other: StereoSound): boolean =>
  (['left', 'right'] as const).every((side) => one[side].every((value, index) => value === other[side][index]));

const firstSoundOf = ({ left }: StereoSound): number => left.findIndex((value) => Math.abs(value) > 1e-4);

describe('stems', () => {
  it('[R39] begin together and sum to the mix within −90 dBFS, notes on no line among them', () => {
    const whole = rendered(order);
    expect([...whole.stems.keys()]).toEqual([melody, bass, 'loose']);
    expect(apartDb(whole)).toBeLessThan(-90);
    for (const source of [melody, bass])
      expect(firstSoundOf(whole.stems.get(source)!)).toBeLessThan(0.005 * sampleRate);
    expect(firstSoundOf(whole.mix)).toBeLessThan(0.005 * sampleRate);
  });

  it('[R39] sum to the mix while the limiter works hard: what it does to the mix it does to every stem', () => {
    const loud = rendered(order, 24);
    const meter = new SoundMeter(sampleRate);
    meter.add(loud.mix);
    const soft = rendered(order);
    expect(dbOfGain(peakOf(loud.mix.left) / peakOf(soft.mix.left))).toBeLessThan(18);
    expect(meter.finish().truePeakDb).toBeLessThanOrEqual(-1);
    for (const { left, right } of loud.stems.values())
      for (const side of [left, right]) expect(outsideTruePeakDb(side, sampleRate)).toBeLessThanOrEqual(-1);
    expect(apartDb(loud)).toBeLessThan(-90);
  });

  it('[R39] sum to the mix with the click, a count-in, another tempo, places and levels', () => {
    const mix: EngineMix = {
      lines: [
        { line: melody, mix: { ...plainMix, levelDb: 3, place: -0.6, tone: 0.5 } },
        { line: bass, mix: { ...plainMix, levelDb: -9, place: 0.8 } },
      ],
      loose: plainMix,
    };
    const whole = rendered({ ...order, mix, click: { isOn: true, subdivision: 2 }, countInBars: 1, rate: 1.5 });
    expect(whole.stems.has('click')).toBe(true);
    expect(apartDb(whole)).toBeLessThan(-90);
    const countInFrames = (4 * 60 * sampleRate) / 100 / 1.5; // a bar of quarters, 100 a minute
    expect(firstSoundOf(whole.stems.get('click')!)).toBeLessThan(0.005 * sampleRate);
    expect(Math.abs(firstSoundOf(whole.stems.get(bass)!) - countInFrames)).toBeLessThan(0.01 * sampleRate);
  });

  it('sound the same whoever else is heard, and those who are muted have none', () => {
    const onlyBass: EngineMix = {
      lines: [{ line: melody, mix: { ...plainMix, isAudible: false } }],
      loose: { ...plainMix, isAudible: false },
    };
    const alone = rendered({ ...order, mix: onlyBass });
    expect([...alone.stems.keys()]).toEqual([bass]);
    const among = rendered(order).stems.get(bass)!.left;
    expect(alone.stems.get(bass)!.left.every((value, index) => value === among[index])).toBe(true);
  });

  it('have the mix that is rendered without them', () => {
    const { mix } = rendered(order);
    let at = 0;
    const undivided = new UnlimitedStems(order, { isDivided: false, mostKeptBytes: 0 });
    for (const {
      mix: { left },
      stems,
    } of limitedStems(undivided, 0)) {
      expect(stems.size).toBe(0);
      const apart = left.map((value, index) => value - mix.left[at + index]!);
      expect(dbOfGain(peakOf(apart))).toBeLessThan(-130);
      at += left.length;
    }
    expect(at).toBe(mix.left.length);
  });

  it.each([-16, -23, -30])(
    'have a mix of %i LUFS where that is asked, by ebur128-wasm, with one gain for all of them',
    (wanted) => {
      const matching = matchedGainDb(new UnlimitedStems(order, divided), wanted);
      const shares: number[] = [];
      let step = matching.next();
      for (; step.done !== true; step = matching.next()) shares.push(step.value);
      const matched = rendered(order, step.value);
      expect(Math.abs(outsideLoudness(matched.mix.left, matched.mix.right, sampleRate) - wanted)).toBeLessThan(0.1);
      expect(outsideTruePeakDb(matched.mix.left, sampleRate)).toBeLessThanOrEqual(-1);
      expect(apartDb(matched)).toBeLessThan(-90);
      expect(shares).toEqual([...shares].sort((a, b) => a - b));
      expect(shares.at(-1)!).toBeLessThanOrEqual(1);
    },
  );

  it('are the same to the last bit when they are gone through again, kept or played anew', () => {
    const first = rendered(order, 6);
    for (const mostKeptBytes of [0, 1 << 30]) {
      const unlimited = new UnlimitedStems(order, { isDivided: true, mostKeptBytes });
      for (const gainDb of [0, 6]) {
        const again = rendered(order, gainDb, unlimited);
        if (gainDb === 6) expect(isSame(again.mix, first.mix)).toBe(true);
        if (gainDb === 6)
          expect([...again.stems].every(([source, stem]) => isSame(stem, first.stems.get(source)!))).toBe(true);
      }
    }
  });

  it('have died away where they end, however long the last note would ring', () => {
    const held = voices(meter(4, 4), [note('E2', 1, { string: 6, fret: 0, techniques: ['letRing'] })]);
    const { mix } = rendered({ ...order, performance: performLines(held, splitOf({ bass: ['n1'] })) });
    const peakFrom = (seconds: number): number =>
      peakOf(mix.left.subarray(mix.left.length - Math.round(seconds * sampleRate)));
    expect(dbOfGain(peakFrom(1))).toBeGreaterThan(-65);
    expect(dbOfGain(peakFrom(0.01))).toBeLessThan(-90);
  });

  it('leave silence as it is', () => {
    const silence: EngineMix = {
      lines: performance.lines.map((line) => ({ line, mix: { ...plainMix, isAudible: false } })),
      loose: { ...plainMix, isAudible: false },
    };
    const matching = matchedGainDb(new UnlimitedStems({ ...order, mix: silence }, divided), -16);
    let step = matching.next();
    while (step.done !== true) step = matching.next();
    expect(step.value).toBe(0);
  });
});
