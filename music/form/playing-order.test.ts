import fc from 'fast-check';
import { signedBars, type SignedBar } from '../../tests/support/bars-as-musicxml.ts';
import { fixedSeed } from '../../tests/support/property-seed.ts';
import { describe, expect, it } from 'vitest';
import { barId } from '../basis/ids.ts';
import type { Jump } from '../score/score.ts';
import { line, meter, rest, ticksPerQuarter, type BarPlan } from '../../tests/support/score-builders.ts';
import { playingOrder } from './playing-order.ts';

const planOf = ({ name, jumps, ...signs }: SignedBar): BarPlan => ({
  meter: meter(4, 4),
  id: barId(name),
  jumps: jumps as readonly Jump[],
  ...signs,
});

const score = (text: string) => line(signedBars(text).map(planOf), rest(4));
const order = (text: string): string =>
  playingOrder(score(text))
    .map(({ bar }) => bar)
    .join('');

const cases: readonly (readonly [string, string, string])[] = [
  ['no signs', 'A B C', 'ABC'],
  ['a repeat from the beginning', 'A B:| C', 'ABABC'],
  ['a repeat with its own beginning', 'A |:B C:| D', 'ABCBCD'],
  ['two repeats in a row', '|:A B:| |:C D:|', 'ABABCDCD'],
  ['a repeat without a beginning goes back to the end of the one before', '|:A B:| C D:|', 'ABABCDCD'],
  ['three times', '|:A:|3 B', 'AAAB'],
  ['a sign that asks for one time', 'A |:B:|1 C', 'ABC'],
  ['first and second ending', '|:A B[1]:| C[2] D', 'ABACD'],
  ['endings of several bars', '|:A B[1] C[1]:| D[2] E[2] F', 'ABCADEF'],
  ['an ending for two passes', '|:A B[1,2]:| C[3] D', 'ABABACD'],
  ['three endings, each with its own sign', '|:A B[1]:| C[2]:| D[3] E', 'ABACADE'],
  ['a second ending that is not marked', '|:A B[1]:| C D', 'ABACD'],
  ['endings after endings', '|:A B[1]:| C[2] |:D E[1]:| F[2]', 'ABACDEDF'],
  ['endings after endings, the second start not marked', '|:A B[1]:| C[2] D E[1]:| F[2]', 'ABACDEDF'],
  ['da capo al fine', 'A B{fine} C D{daCapo}', 'ABCDAB'],
  ['dal segno al fine', 'A B{segno} C{fine} D{dalSegno}', 'ABCDBC'],
  ['da capo al coda', 'A B{toCoda} C{daCapo} D{coda} E', 'ABCABDE'],
  ['dal segno al coda', 'A B{segno} C{toCoda} D{dalSegno} E{coda} F', 'ABCDBCEF'],
  ['dal segno with two bare coda signs', 'A B{segno} C{coda} D{dalSegno} E{coda} F', 'ABCDBCEF'],
  ['repeats are not taken again after a return', '|:A B:| C{fine} D{daCapo}', 'ABABCDABC'],
  ['the last ending after a return', '|:A B[1]:| C[2] D{daCapo} E', 'ABACDACDE'],
  ['a repeat within the coda is taken', 'A{toCoda} B{daCapo} |:C{coda}:|', 'ABACC'],
  ['a return after a repeat', '|:A B{daCapo}:|', 'ABABAB'],
  ['first and second ending by da capo', 'A B[1]{daCapo} C[2]', 'ABAC'],
  ['a jump to a sign that is not there', 'A B{dalSegno} C', 'ABC'],
];

describe('playing order', () => {
  it.each(cases)('[R29] %s', (_what, bars, expected) => {
    expect(order(bars)).toBe(expected);
  });

  // MusicXML 4.0, repeat: “after-jump: indicates if the repeats occur after a jump due to a da capo or dal segno”, from memory.
  it.each([
    ['A B:| C{fine} D{daCapo}', ['B'], 'ABABCDABABC'],
    ['|:A B[1]:| C[2] D{daCapo} E', ['B'], 'ABACDABACDE'],
    ['|:A:| |:B:| C{daCapo}', ['B'], 'AABBCABBC'],
  ])('[R29] %s takes the repeats after %s again after a jump', (bars, names, expected) => {
    const repeatsAfterJump = names.map((name) => barId(name));
    const played = playingOrder({ bars: score(bars).bars, repeatsAfterJump });
    expect(played.map(({ bar }) => bar).join('')).toBe(expected);
  });

  it('tells the pass and the onset in playing time', () => {
    const bar = 4 * ticksPerQuarter;
    expect(playingOrder(score('A:| B')).map(({ ordinal, pass, onsetTicks }) => [ordinal, pass, onsetTicks])).toEqual([
      [1, 1, 0],
      [2, 2, bar],
      [3, 1, 2 * bar],
    ]);
  });

  it('[R30] always ends, and bar and pass name one playing', () => {
    const anyBar = fc.record({
      startsRepeat: fc.boolean(),
      repeatTimes: fc.constantFrom(0, 0, 0, 2, 3, 1_000_000),
      endings: fc.constantFrom([], [], [1], [2], [1, 2], [3]),
      jumps: fc.uniqueArray(fc.constantFrom<Jump>('segno', 'coda', 'fine', 'dalSegno', 'daCapo', 'toCoda'), {
        maxLength: 2,
      }),
    });
    fc.assert(
      fc.property(fc.array(anyBar, { minLength: 1, maxLength: 12 }), (signs) => {
        const bars = signs.map((sign): BarPlan => ({ meter: meter(4, 4), ...sign }));
        const played = playingOrder(line(bars, rest(4)));
        expect(played.length).toBeLessThan(20_000);
        expect(new Set(played.map(({ bar, pass }) => `${bar} ${pass}`)).size).toBe(played.length);
      }),
      { seed: fixedSeed },
    );
  });
});
