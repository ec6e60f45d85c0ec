import { describe, expect, it } from 'vitest';
import { linePowersOf, lineId, performLines, renderPerformance } from '../../music/index.ts';
import { outsideLoudness } from '../../tests/support/outside-loudness.ts';
import { meter, note, voices } from '../../tests/support/score-builders.ts';
import { splitOf } from '../../tests/support/split-builders.ts';
import { audibleLines, engineMixOf, plainSetting } from './mixing.ts';

const [melody, bass, taps] = [lineId('melody'), lineId('bass'), lineId('taps')];
const lines = [melody, bass, taps];
const heard = (...settings: Parameters<typeof engineMixOf>): string[] => {
  const mix = engineMixOf(...settings);
  return [
    ...mix.lines.filter((each) => each.mix.isAudible).map((each) => each.line as string),
    ...(mix.loose.isAudible ? ['loose'] : []),
  ];
};

describe('the mix', () => {
  it('lets everybody be heard, notes on no line too', () => {
    expect(heard(lines, new Map(), null)).toEqual(['melody', 'bass', 'taps', 'loose']);
  });

  it('takes solo before mute, and notes on no line out of a solo', () => {
    const soloed = new Map([[bass, { ...plainSetting, isSolo: true }]]);
    expect(heard(lines, soloed, null)).toEqual(['bass']);
    expect(heard(lines, new Map([[bass, { ...plainSetting, isMuted: true }]]), null)).toEqual([
      'melody',
      'taps',
      'loose',
    ]);
    expect(heard(lines, new Map([[bass, { ...plainSetting, isSolo: true, isMuted: true }]]), null)).toEqual([]);
  });

  it('forgets a line forward that the music does not have', () => {
    expect(engineMixOf(lines, new Map(), lineId('gone'))).toEqual(engineMixOf(lines, new Map(), null));
  });

  it('brings one line forward at the same loudness within 1 LU by ebur128-wasm, whichever it is and whatever was set before', () => {
    const score = voices(
      meter(4, 4),
      [note('E4', 1), note('G4', 1), note('A4', 2), note('B4', 4)],
      [note('E2', 2), note('B2', 2), note('E2', 4)],
      [note('G3', 8)],
    );
    const performance = performLines(
      score,
      splitOf({ melody: ['n1', 'n4', 'n5', 'n7'], bass: ['n2', 'n6', 'n8'], middle: ['n3'] }),
    );
    const powers = linePowersOf(performance);
    const settings = new Map([
      [performance.lines[0]!, { ...plainSetting, levelDb: -6, tone: 0.8 }],
      [performance.lines[1]!, { ...plainSetting, levelDb: 4, place: -0.7, tone: -1 }],
      [performance.lines[2]!, { ...plainSetting, tone: 1 }],
    ]);
    const loudnessOf = (forward: (typeof lines)[number] | null): number => {
      const mix = engineMixOf(performance.lines, settings, forward, powers);
      const { left, right } = renderPerformance(performance, mix, { sampleRate: 48_000 });
      return outsideLoudness(left, right, 48_000);
    };
    const plain = loudnessOf(null);
    for (const forward of performance.lines) {
      expect(Math.abs(loudnessOf(forward) - plain)).toBeLessThan(1);
      const levels = engineMixOf(performance.lines, new Map(), forward, powers).lines;
      const own = levels.find(({ line }) => line === forward)!.mix.levelDb;
      for (const { line, mix } of levels) if (line !== forward) expect(own - mix.levelDb).toBeCloseTo(9, 9);
    }
  });
});

describe('who can be heard', () => {
  const setting = (line: typeof melody, change: object) => [line, { ...plainSetting, ...change }] as const;

  it('is everybody without a setting, the soloed with one, and never the muted', () => {
    expect(audibleLines(lines, new Map())).toEqual(lines);
    expect(audibleLines(lines, new Map([setting(bass, { isSolo: true })]))).toEqual([bass]);
    expect(audibleLines(lines, new Map([setting(bass, { isMuted: true })]))).toEqual([melody, taps]);
    expect(audibleLines(lines, new Map([setting(bass, { isSolo: true, isMuted: true })]))).toEqual([]);
  });
});
