import { describe, expect, it } from 'vitest';
import { namedMix } from '../../contract/index.ts';
import { engineMixOf, lineId, plainSetting } from '../../music/index.ts';
import { lineNamed } from '../../tests/support/split-builders.ts';
import { foundMix, isSameMix, namedMixOf, type HeardMix } from './named-mixes.ts';
import { newlyOffered, offeredMixes } from './offered-mixes.ts';

const [melody, middle, bass] = ['melody', 'middle', 'bass'].map(lineId) as [
  ReturnType<typeof lineId>,
  ReturnType<typeof lineId>,
  ReturnType<typeof lineId>,
];
const lines = [melody, middle, bass];
const heard: HeardMix = {
  settings: new Map([
    [melody, { ...plainSetting, levelDb: -3, tone: 0.4, place: -1, instrument: 'hum' as const }],
    [middle, plainSetting],
    [bass, { ...plainSetting, isMuted: true, isSolo: true }],
  ]),
  forward: melody,
  lifted: new Set([middle]),
};

describe('a named mix', () => {
  it('is valid on the wire and brings back all that was set', () => {
    const mix = namedMixOf('m1', 'Sing along', heard, lines);
    expect(namedMix.parse(mix)).toEqual(mix);
    const found = foundMix(mix, lines);
    expect(found.goneCount).toBe(0);
    expect(isSameMix(found.heard, heard, lines)).toBe(true);
    expect(engineMixOf(lines, found.heard.settings, found.heard.forward)).toEqual(
      engineMixOf(lines, heard.settings, heard.forward),
    );
  });

  it('leaves out lines that are plain', () => {
    const plain: HeardMix = { settings: new Map([[melody, plainSetting]]), forward: null, lifted: new Set() };
    expect(namedMixOf('m1', 'Everybody', plain, lines).lines).toEqual([]);
  });

  it('drops lines that are gone, the one forward too, and counts them', () => {
    const found = foundMix(namedMixOf('m1', 'Sing along', heard, lines), [middle, bass]);
    expect([found.goneCount, found.heard.forward]).toEqual([1, null]);
    expect([...found.heard.settings.keys()]).toEqual([middle, bass]);
  });

  it('is another one with any line set otherwise, whatever lines are named that are plain', () => {
    const silent = { ...heard, settings: new Map([...heard.settings, [middle, { ...plainSetting, isMuted: true }]]) };
    expect(isSameMix(heard, silent, lines)).toBe(false);
    expect(isSameMix(heard, { ...heard, forward: null }, lines)).toBe(false);
    expect(isSameMix(heard, { ...heard, lifted: new Set() }, lines)).toBe(false);
    expect(isSameMix({ ...heard, settings: new Map([...heard.settings].reverse()) }, heard, lines)).toBe(true);
  });
});

describe('the mixes that a split suggests', () => {
  let number = 0;
  const newId = () => `m${(number += 1)}`;
  const named = (...names: readonly string[]) => names.map((name) => ({ ...lineNamed(name), role: name as 'melody' }));
  const namesOf = (...names: readonly string[]) =>
    offeredMixes(named(...names), newId).map(({ name }) => name.toLowerCase());

  it('are everybody, the melody forward, each line alone, and every pair', () => {
    expect(namesOf('melody', 'middle', 'bass')).toEqual([
      'everybody',
      'melody forward',
      'melody alone',
      'middle alone',
      'bass alone',
      'melody and middle',
      'melody and bass',
      'middle and bass',
    ]);
  });

  it('are few where pairs would say nothing new, or too much', () => {
    expect(namesOf('melody')).toEqual(['everybody']);
    expect(namesOf('melody', 'bass')).toEqual(['everybody', 'melody forward', 'melody alone', 'bass alone']);
    expect(namesOf('melody', 'counter', 'middle', 'bass', 'percussion')).toHaveLength(7);
  });

  it('let exactly the named lines be heard, and are valid on the wire', () => {
    const offered = offeredMixes(named('melody', 'middle', 'bass'), newId);
    for (const mix of offered) expect(namedMix.parse(mix)).toEqual(mix);
    const pair = offered.find(({ name }) => name.toLowerCase() === 'melody and bass')!;
    const { settings, forward } = foundMix(pair, lines).heard;
    const audible = engineMixOf(lines, settings, forward).lines.filter(({ mix }) => mix.isAudible);
    expect(audible.map(({ line }) => line)).toEqual([melody, bass]);
  });

  it('are not offered again under a name that is there', () => {
    const offered = offeredMixes(named('melody', 'bass'), newId);
    expect(newlyOffered(offered, [{ ...offered[0]!, name: 'EVERYBODY' }])).toEqual(offered.slice(1));
  });
});
