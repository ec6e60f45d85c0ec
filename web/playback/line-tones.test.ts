import { describe, expect, it } from 'vitest';
import { lineId, plainSetting, type LineSetting } from '../../music/index.ts';
import { heardWords, lineTones } from './line-tones.ts';

const [melody, middle, bass] = [lineId('melody'), lineId('middle'), lineId('bass')];
const lines = [
  { id: melody, name: 'Melody' },
  { id: middle, name: 'Middle' },
  { id: bass, name: 'Bass' },
];
const ids = lines.map(({ id }) => id);
const heard = (parts: Readonly<Record<string, Partial<LineSetting>>>, forward = '') => ({
  settings: new Map(Object.entries(parts).map(([id, part]) => [lineId(id), { ...plainSetting, ...part }])),
  forward: forward === '' ? null : lineId(forward),
});

describe('how lines are heard', () => {
  it.each([
    ['nothing is set', heard({}), ['plain', 'plain', 'plain'], 'Every line is heard'],
    ['one is solo', heard({ bass: { isSolo: true } }), ['silent', 'silent', 'plain'], 'Bass solo'],
    ['one is muted', heard({ melody: { isMuted: true } }), ['silent', 'plain', 'plain'], 'Melody muted'],
    ['one is forward', heard({}, 'middle'), ['faint', 'forward', 'faint'], 'Middle forward'],
    ['one is softer', heard({ middle: { levelDb: -6 } }), ['plain', 'faint', 'plain'], 'Every line is heard'],
    [
      'one is forward and one muted',
      heard({ bass: { isMuted: true } }, 'melody'),
      ['forward', 'faint', 'silent'],
      'Melody forward, Bass muted',
    ],
    [
      'the one forward is muted',
      heard({ bass: { isMuted: true } }, 'bass'),
      ['faint', 'faint', 'silent'],
      'Bass muted and forward',
    ],
  ])('where %s', (_, mix, tones, words) => {
    expect([...lineTones(ids, mix).values()]).toEqual(tones);
    expect(heardWords(lines, mix)).toBe(words);
  });
});
