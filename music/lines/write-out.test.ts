import { describe, expect, it } from 'vitest';
import { barId, noteId } from '../basis/ids.ts';
import { fraction } from '../basis/fraction.ts';
import { excerptOfBars, type Excerpt } from '../score/excerpt.ts';
import type { Score } from '../score/score.ts';
import { chord, hit, line, meter, note, pickup, rest, voices, type Item } from '../../tests/support/score-builders.ts';
import { allOn, splitOf } from '../../tests/support/split-builders.ts';
import { writtenText } from '../../tests/support/written-text.ts';
import type { LengthMode } from './lengths.ts';
import { writeOut } from './write-out.ts';

const whole = (score: Score): Excerpt => excerptOfBars(score, score.bars[0]!.id, score.bars.at(-1)!.id)!;
const written = (score: Score, lengths: LengthMode = 'written', excerpt = whole(score)): string =>
  writtenText(writeOut(score, allOn(score), excerpt, { lengths }).value);

// How rests and values stand in the meter follows E. Gould, Behind Bars (Faber, 2011), chapters on rhythm and meter; from memory.
const cases: readonly (readonly [string, ReturnType<typeof meter>, readonly Item[], string])[] = [
  ['[R15] a gap becomes rests', meter(4, 4), [note('C4', 1), rest(3)], 'C4:4 r:4 r:2'],
  ['[R15] an empty bar is one bar rest', meter(3, 4), [note('C4', 3), rest(3)], 'C4:2. | r:bar'],
  ['[R16] rests stand at half bars', meter(4, 4), [rest(1), note('C4', 0.5), rest(2.5)], 'r:4 C4:8 r:8 r:2'],
  [
    '[R16] no rest hides the middle of the bar',
    meter(4, 4),
    [note('C4', 1), rest(2), note('C4', 1)],
    'C4:4 r:4 r:4 C4:4',
  ],
  ['[R16] three four has no half rest', meter(3, 4), [note('C4', 1), rest(2)], 'C4:4 r:4 r:4'],
  [
    '[R16] no dotted rest in simple time',
    meter(2, 4),
    [note('C4', 0.25), rest(0.75), note('C4', 1)],
    'C4:16 r:16 r:8 C4:4',
  ],
  ['[R16] a dotted rest is a compound beat', meter(6, 8), [note('C4', 1.5), rest(1.5)], 'C4:4. r:4.'],
  [
    '[R16] two thirds of a compound beat are one rest first, two last',
    meter(6, 8),
    [rest(1), note('C4', 1), rest(1)],
    'r:4 C4~:8 ~C4:8 r:8 r:8',
  ],
  [
    '[R17] a dotted note from a beat',
    meter(4, 4),
    [note('C4', 1.5), note('D4', 0.5), note('E4', 2)],
    'C4:4. D4:8 E4:2',
  ],
  ['[R17] a dotted half from the first beat', meter(4, 4), [note('C4', 3), note('D4', 1)], 'C4:2. D4:4'],
  ['[R17] short long short', meter(4, 4), [note('C4', 1), note('D4', 2), note('E4', 1)], 'C4:4 D4:2 E4:4'],
  [
    '[R17] short long short within a half bar',
    meter(4, 4),
    [note('C4', 0.5), note('D4', 1), note('E4', 0.5), rest(2)],
    'C4:8 D4:4 E4:8 r:2',
  ],
  [
    '[R17] the middle of the bar is shown',
    meter(4, 4),
    [note('C4', 1.5), note('D4', 1), note('E4', 1.5)],
    'C4:4. D4~:8 ~D4:8 E4~:8 ~E4:4',
  ],
  ['[R17] an off-beat note is tied over the beat', meter(3, 4), [note('C4', 0.5), note('D4', 2.5)], 'C4:8 D4~:8 ~D4:2'],
  ['[R17] a compound beat is shown', meter(6, 8), [note('C4', 2), note('D4', 1)], 'C4~:4. ~C4:8 D4:4'],
  [
    '[R17] the lilt of six eight',
    meter(6, 8),
    [note('C4', 0.75), note('D4', 0.25), note('E4', 0.5), note('F4', 1.5)],
    'C4:8. D4:16 E4:8 F4:4.',
  ],
  ['[R17] nine eight in full is tied', meter(9, 8), [note('C4', 4.5)], 'C4~:2. ~C4:4.'],
  ['[R17] additive groups are shown', meter([3, 2], 8), [note('C4', 2.5)], 'C4~:4. ~C4:4'],
  ['[R17] the groups of seven eight', meter(7, 8), [note('C4', 3), note('D4', 0.5)], 'C4~:4 ~C4~:4 ~C4:4 D4:8'],
  [
    '[R18] a triplet',
    meter(2, 4),
    [note('C4', 1 / 3), note('D4', 1 / 3), note('E4', 1 / 3), note('F4', 1)],
    '[C4:8/3:2 D4:8/3:2 E4:8/3:2] F4:4',
  ],
  ['[R18] a shuffle', meter(2, 4), [note('C4', 2 / 3), note('D4', 1 / 3), note('E4', 1)], '[C4:4/3:2 D4:8/3:2] E4:4'],
  [
    '[R18] a triplet of quarters',
    meter(2, 4),
    [note('C4', 2 / 3), note('D4', 2 / 3), note('E4', 2 / 3)],
    '[C4:4/3:2 D4:4/3:2 E4:4/3:2]',
  ],
  [
    '[R18] the end of a triplet tied on',
    meter(2, 4),
    [note('C4', 1 / 3), note('D4', 1 / 3), note('E4', 4 / 3)],
    '[C4:8/3:2 D4:8/3:2 E4~:8/3:2] ~E4:4',
  ],
  [
    '[R18] a rest within a triplet',
    meter(2, 4),
    [note('C4', 1 / 3), rest(1 / 3), note('E4', 1 / 3), rest(1)],
    '[C4:8/3:2 r:8/3:2 E4:8/3:2] r:4',
  ],
  [
    '[R18] five in a beat',
    meter(2, 4),
    ['C', 'D', 'E', 'F', 'G'].map((name) => note(`${name}4`, 0.2)).concat(note('C4', 1)),
    '[C4:16/5:4 D4:16/5:4 E4:16/5:4 F4:16/5:4 G4:16/5:4] C4:4',
  ],
  ['[R19] a chord stays a chord', meter(2, 4), [chord(['C4', 'E4'], 2)], 'C4+E4:2'],
  ['[R20] a backbeat (common practice, no source)', meter(4, 4), [rest(1), hit(1), rest(1), hit(1)], 'r:4 x:4 r:4 x:4'],
  ['[R20] a hit is no longer than its beat', meter(4, 4), [rest(1.5), hit(2.5)], 'r:4 r:8 x:8 r:2'],
];

describe('writing out', () => {
  it.each(cases)('%s', (_rule, barMeter, items, expected) => {
    expect(written(line(barMeter, ...items))).toBe(expected);
  });

  it('[R20] a hit struck with a note of its line ends with it', () => {
    const score = voices(meter(2, 4), [note('C4', 2)], [hit(0.5)]);
    expect(written(score)).toBe('C4+x:2');
  });

  it('[R24] the clef is that of the whole line, whatever the excerpt', () => {
    const score = line(meter(4, 4), note('E2', 4), note('E2', 4), note('E4', 4), rest(4));
    const clefs = score.bars.map(({ id }) => {
      const excerpt = excerptOfBars(score, id, id)!;
      return writeOut(score, allOn(score), excerpt, { lengths: 'written' }).value.staves[0]!.clef;
    });
    expect(clefs).toEqual(score.bars.map(() => ({ sign: 'F', staffLine: 4, octave: 0 })));
  });

  it('[R18] a triplet within a triplet keeps its own bracket', () => {
    const ninth = 1 / 9;
    const score = line(
      meter(1, 4),
      note('C4', ninth),
      note('D4', ninth),
      note('E4', ninth),
      note('F4', 1 / 3),
      note('G4', 1 / 3),
    );
    expect(written(score)).toBe('[[C4:16/9:4 D4:16/9:4 E4:16/9:4] F4:8/3:2 G4:8/3:2]');
  });

  it('[R18] says where no value is exact, and keeps the length', () => {
    const score = voices(meter(1, 4), [note('C4', 1 / 11), rest(10 / 11)], [rest(0.2), note('D4', 0.8)]);
    const { value, issues } = writeOut(score, allOn(score), whole(score), { lengths: 'written' });
    expect(issues.map(({ code, where }) => [code, where.kind === 'music' ? where.beat : 0])).toContainEqual([
      'value-repaired',
      1.2,
    ]);
    expect(value.staves[0]!.bars[0]!.reduce((sum, event) => sum + event.lengthTicks, 0)).toBe(score.ticksPerQuarter);
  });

  it('[R21] grace notes go before their main note', () => {
    const plain = line(meter(4, 4), note('C4', 4));
    const grace = { id: noteId('g1'), main: noteId('n1'), heads: [], fingerboard: null, hasSlash: true };
    const graces = [{ ...grace, sound: plain.notes[0]!.sound }];
    const { value, issues } = writeOut({ ...plain, graces }, allOn(plain), whole(plain), { lengths: 'written' });
    expect(issues).toEqual([]);
    expect(value.staves[0]!.bars[0]![0]!.graces.map(({ source, hasSlash }) => [source, hasSlash])).toEqual([
      ['g1', true],
    ]);
  });

  it('[R14] bars that their meter tells nothing of are filled all the same', () => {
    const free = line([{ meter: meter(0, 4), quarters: 6 }], note('C4', 5), rest(1));
    expect(written(free)).toBe('C4~:1 ~C4:4 r:4');
    const endless = line([{ meter: meter(1, 64), quarters: 5000 }], note('C4', 1), rest(4999));
    const [bar] = writeOut(endless, allOn(endless), whole(endless), { lengths: 'written' }).value.staves[0]!.bars;
    expect(bar!.reduce((sum, event) => sum + event.lengthTicks, 0)).toBe(5000 * endless.ticksPerQuarter);
  });

  it('says so when the excerpt names a bar that is not there', () => {
    const score = line(meter(4, 4), note('C4', 4));
    const place = { bar: barId('gone'), offset: fraction(0) };
    const { value, issues } = writeOut(score, allOn(score), { from: place, to: place }, { lengths: 'written' });
    expect([value.staves.length, issues[0]?.code]).toEqual([0, 'no-music']);
  });

  it('[R20] a backbeat is the same in every way of lengths (common practice, no source)', () => {
    const score = line(meter(4, 4), rest(1), hit(1), rest(1), hit(1));
    expect(written(score, 'next')).toBe('r:4 x:4 r:4 x:4');
    expect(written(score, 'string')).toBe('r:4 x:4 r:4 x:4');
  });

  it('[R14] a pickup counts from the end of its meter', () => {
    const score = line(pickup(meter(4, 4), 1.5), note('C4', 0.5), note('D4', 1), note('E4', 4));
    expect(written(score)).toBe('C4:8 D4:4 | E4:1');
  });

  it('[R14] the second half of a split bar goes on in its meter', () => {
    const score = line(
      [
        { meter: meter(4, 4), quarters: 3 },
        { meter: meter(4, 4), quarters: 3 },
        { meter: meter(4, 4), quarters: 1 },
        { meter: meter(4, 4) },
      ],
      note('C4', 3),
      note('D4', 1.5),
      note('E4', 1.5),
      note('F4', 1),
    );
    expect(written(score)).toBe('C4~:4 ~C4:2 | D4:4. E4~:8 ~E4:4 | F4:4 | r:bar');
  });

  it('[R14] an overfull bar sums to its own length', () => {
    const score = line([{ meter: meter(3, 4), quarters: 4 }], note('C4', 1), note('D4', 3));
    expect(written(score)).toBe('C4:4 D4~:2 ~D4:4');
  });

  it('[R14] an excerpt within bars has part bars at its edges, and what began before is not struck again', () => {
    const score = line(meter(4, 4), note('C4', 3), note('D4', 3), note('E4', 2));
    const excerpt = { from: { bar: barId('b1'), offset: fraction(2) }, to: { bar: barId('b2'), offset: fraction(3) } };
    const result = writeOut(score, allOn(score), excerpt, { lengths: 'written' }).value;
    expect(writtenText(result)).toBe('r:4 D4~:4 | ~D4:2 E4:4');
    expect(result.bars.map(({ isPartial }) => isPartial)).toEqual([true, true]);
  });

  it('[R19] a chord whose notes end apart is written with ties', () => {
    const score = voices(meter(2, 4), [note('E4', 2)], [note('C4', 1)]);
    expect(written(score)).toBe('E4~+C4:4 ~E4:4');
  });

  it('[R21] a note is cut where the next note of its line begins', () => {
    const score = voices(meter(4, 4), [note('E4', 4)], [rest(2), note('C4', 2)]);
    expect(written(score)).toBe('E4:2 C4:2');
  });

  it('[R22] until the next note, but ending at a rest of its own voice', () => {
    const score = line(meter(4, 4), note('C4', 1), rest(1), note('D4', 2));
    expect(written(score, 'next')).toBe('C4:4 r:4 D4:2');
    const bass = voices(meter(4, 4), [note('C5', 4)], [note('C3', 1)]);
    const low = { ...splitOf({ bass: ['n2'] }) };
    expect(writtenText(writeOut(bass, low, whole(bass), { lengths: 'next' }).value)).toBe('C3:1');
  });

  it('[R22] until the next note, but two bars at most', () => {
    const score = voices(meter(2, 4), [note('C3', 1)], [note('C5', 2), note('C5', 2), note('C5', 2), note('C5', 2)]);
    const excerpt = whole(score);
    const result = writeOut(score, splitOf({ bass: ['n1'] }), excerpt, { lengths: 'next' }).value;
    expect(writtenText(result)).toBe('C3~:2 | ~C3:2 | r:bar | r:bar');
  });

  it('[R23] until the string is struck again', () => {
    const score = voices(
      meter(4, 4),
      [note('C3', 1, { string: 5, fret: 3 }), rest(3)],
      [rest(1), note('E4', 1, { string: 1, fret: 0 }), note('D3', 2, { string: 5, fret: 5 })],
    );
    const result = writeOut(score, splitOf({ bass: ['n1'] }), whole(score), { lengths: 'string' }).value;
    expect(writtenText(result)).toBe('C3:2 r:2');
  });

  it('[R24] the clef has the least beyond its staff at sounding pitch', () => {
    const score = line(meter(4, 4), note('E5', 1), note('G3', 1), note('E2', 1), hit(1));
    const split = splitOf({ melody: ['n1'], middle: ['n2'], bass: ['n3'], taps: ['n4'] });
    const { staves } = writeOut(score, split, whole(score), { lengths: 'written' }).value;
    expect(staves.map(({ clef }) => clef)).toEqual([
      { sign: 'G', staffLine: 2, octave: 0 },
      { sign: 'G', staffLine: 2, octave: -1 },
      { sign: 'F', staffLine: 4, octave: 0 },
      { sign: 'percussion' },
    ]);
  });
});
