import { describe, expect, it } from 'vitest';
import { tableOfNotes } from './moments.ts';
import { lineCountOf } from './line-count.ts';
import { textureOf } from './texture.ts';

const textureFrom = (...rows: readonly (readonly [onsetTicks: number, lengthTicks: number, midi: number])[]) =>
  textureOf(tableOfNotes(rows.map(([onsetTicks, lengthTicks, midi]) => ({ onsetTicks, lengthTicks, midi }))), 4);

describe('textureOf', () => {
  it('tells how long how many notes sound, and how many move on their own', () => {
    const { sounding, independent, struck } = textureFrom([0, 4, 60], [0, 4, 64], [2, 2, 67], [4, 4, 60]);
    expect(sounding.slice(1, 4)).toEqual([1, 0.5, 0.25]);
    expect(independent.slice(1, 3)).toEqual([1, 0.25]);
    expect(struck[2]).toBeCloseTo(1 / 3);
  });
});

type Row = readonly [onsetTicks: number, lengthTicks: number, midi: number];

/** A voice in quarters from one quarter to another, half a quarter after the beat where `late`. */
const voice = (midi: number, from: number, to: number, late: boolean): readonly Row[] =>
  Array.from({ length: to - from }, (_, index): Row => [(from + index) * 4 + (late ? 2 : 0), 4, midi + (index % 3)]);

/** Three voices, then a fourth besides for two bars, then two. */
const seldomFull = (): readonly Row[] => [
  ...voice(72, 0, 60, false),
  ...voice(64, 0, 60, true),
  ...voice(55, 0, 32, false).map(([onset, length, midi]): Row => [onset + 1, length, midi]),
  ...voice(45, 24, 32, true).map(([onset, length, midi]): Row => [onset + 1, length, midi]),
];

const pairWithChords = (): readonly Row[] => [
  ...voice(72, 1, 30, false),
  ...voice(50, 1, 30, true),
  ...[48, 55, 64, 72].flatMap((midi): Row[] => [
    [0, 4, midi],
    [124, 8, midi],
  ]),
];

describe('lineCountOf', () => {
  it.each([
    ['a tune alone', textureFrom([0, 4, 60], [4, 4, 62]), 1],
    ['a tune over a held bass', textureFrom([0, 2, 60], [0, 4, 40], [2, 2, 62], [4, 4, 64], [4, 4, 41]), 2],
    ['four parts in full chords', textureFrom([0, 4, 72], [0, 4, 67], [0, 4, 64], [0, 4, 48]), 4],
    [
      'a bass under strummed chords',
      textureFrom([0, 8, 40], [2, 2, 60], [2, 2, 64], [2, 2, 67], [6, 2, 60], [6, 2, 64], [6, 2, 67]),
      2,
    ],
    ['four voices, seldom all there', textureFrom(...seldomFull()), 4],
    ['two voices with a chord of four at each end', textureFrom(...pairWithChords()), 2],
    ['nothing', textureFrom(), 1],
  ])('%s', (_, texture, lines) => {
    expect(lineCountOf(texture)).toBe(lines);
  });
});
