import { describe, expect, it } from 'vitest';
import { measuresXml } from '../../../tests/support/measures.ts';
import { playingOrder } from '../../form/playing-order.ts';
import { readMusicXml, type ReadScore } from './read-score.ts';

function read(bars: readonly string[]): ReadScore {
  const source = { fileName: 'tiny.musicxml', firstNoteNumber: 1, firstBarNumber: 1 };
  const result = readMusicXml(new TextEncoder().encode(measuresXml(bars)), source);
  if (!result.ok) throw new Error(result.refusal.map(({ detail }) => detail).join('; '));
  return result.value;
}

const note = '<note><pitch><step>C</step><octave>4</octave></pitch><duration>96</duration></note>';
const barline = (location: string, content: string): string => `<barline location="${location}">${content}</barline>`;
const back = '<repeat direction="backward"/>';
const forth = '<repeat direction="forward"/>';
const words = (text: string): string =>
  `<direction><direction-type><words>${text}</words></direction-type></direction>`;

/** What stands around the note of a bar: `|:` and `:|` for repeats, `[1` and `1]` for where an ending begins and stops. */
function bar(text: string): string {
  const starts = /\[([\d,]+)/.exec(text)?.[1];
  const stops = /([\d,]+)\]/.exec(text)?.[1];
  const left =
    (starts === undefined ? '' : `<ending number="${starts}" type="start"/>`) + (text.includes('|:') ? forth : '');
  const right =
    (stops === undefined ? '' : `<ending number="${stops}" type="stop"/>`) + (text.includes(':|') ? back : '');
  return barline('left', left) + note + barline('right', right);
}

const orderOf = ({ score }: ReadScore): string =>
  playingOrder(score)
    .map(({ bar: id }) => score.bars.find((one) => one.id === id)!.ordinal)
    .join('');
const barsOf = (text: string): string[] => text.split('/').map(bar);
const codes = ({ issues }: ReadScore): (readonly [string, number])[] =>
  issues.map(({ code, where }) => [code, where.kind === 'music' ? where.barOrdinal : 0]);

describe('an ending that nothing stops', () => {
  it.each([
    ['the first, stops at its sign', '|: / [1 :| / [2 2] / ', '12134', 2],
    ['the first of two bars, stops at its sign', '|: / [1 / :| / [2 2] / ', '123145', 2],
    ['the first without a sign, stops at the next ending', '|: / [1 / / [2 2] / ', '123145', 2],
    ['the last, stops with its first bar before another repeat', '|: / [1 1] :| / [2 / / |: :| / ', '12134556', 3],
    ['the last, stops with its first bar before another sign', '|: / [1 1] :| / [2 / / :| / ', '121345456', 3],
  ])('%s, and is told', (_, text, order, told) => {
    const result = read(barsOf(text));
    expect(orderOf(result)).toBe(order);
    expect(codes(result)).toContainEqual(['span-unresolved', told]);
  });
});

describe('endings without a sign that leads back', () => {
  it('are repeated where another ending follows, and that is told', () => {
    const result = read(barsOf('|: / [1 1] / [2 2] / '));
    expect([orderOf(result), codes(result)]).toEqual(['12134', [['value-repaired', 2]]]);
  });

  it('are those of a return where one stands there', () => {
    const [first, second, third, ...rest] = barsOf(' / [1 1] / [2 2] / ');
    const result = read([first!, second! + words('D.C.'), third!, ...rest]);
    expect([orderOf(result), codes(result)]).toEqual(['12134', []]);
  });

  it('are left alone where what follows is no later ending', () => {
    expect(orderOf(read(barsOf('|: / [1,2 1,2] / [1 1] / ')))).toBe('1234');
  });
});

describe('passes that no ending names', () => {
  it.each([
    ['|: / [1 1] :| / [4 4] / ', '121212134', 'passes 2 to 3; they were'],
    ['|: / [1 1] :| / [3 3] / ', '1212134', 'pass 2; it was'],
  ])('are those of the ending before them, and that is told: %s', (text, order, which) => {
    const result = read(barsOf(text));
    expect(orderOf(result)).toBe(order);
    expect(result.issues).toMatchObject([
      {
        code: 'value-repaired',
        where: { barOrdinal: 2 },
        detail: `No ending is for ${which} taken to go through this one.`,
      },
    ]);
  });
});

describe('signs on the other side of a barline', () => {
  it.each([
    ['a repeat that begins on the right', [note + barline('right', forth), bar(''), bar(':|')], '12323'],
    ['a repeat that ends on the left', [bar(''), bar('|:'), barline('left', back) + note], '1223'],
    [
      'endings that stop on the left',
      [
        bar('|:'),
        bar('[1'),
        `${barline('left', `<ending number="1" type="stop"/>${back}`)}${note}${barline('right', '<ending number="2" type="start"/>')}`,
        bar('2]'),
      ],
      '12134',
    ],
    ['a segno on the right', [note + barline('right', '<segno/>'), note, note + words('D.S. al Fine')], '12323'],
  ])('belong to the bar that begins or ends there: %s', (_, bars, order) => {
    expect(orderOf(read(bars))).toBe(order);
  });

  it('within a bar are taken for its edge, and told', () => {
    const half = note.replace('96', '48');
    const result = read([note, half + barline('middle', back) + half, note]);
    expect(orderOf(result)).toBe('12123');
    expect(result.issues).toMatchObject([{ code: 'value-repaired', where: { barOrdinal: 2, beat: 3 } }]);
  });
});
