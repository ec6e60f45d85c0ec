import { describe, expect, it } from 'vitest';
import { abcToMusicXml } from '../abc/abc-to-musicxml.ts';
import { textTabToMusicXml } from '../text-tab/text-tab-to-musicxml.ts';
import { childOf, childrenOf, element, elementsOf, textOf, type XmlElement } from '../xml/tree.ts';
import { withBeams } from './beamed-tree.ts';
import { textElement } from './text-element.ts';

const letters: Readonly<Record<string, string>> = {
  begin: '(',
  continue: '-',
  end: ')',
  'forward hook': '>',
  'backward hook': '<',
};

/** The beams of each struck note, the eighth's beam first: `(` begin, `-` continue, `)` end, hooks `>` and `<`, `.` none. Bars are parted by `|`. */
function beamsOf(root: XmlElement): string {
  const bars = childrenOf(root, 'part').flatMap((part) => childrenOf(part, 'measure'));
  return bars
    .map((bar) =>
      childrenOf(bar, 'note')
        .filter((note) => childOf(note, 'chord') === undefined)
        .map(
          (note) =>
            childrenOf(note, 'beam')
              .map((beam) => letters[textOf(beam)] ?? '?')
              .join('') || '.',
        )
        .join(' '),
    )
    .join(' | ');
}

const ticks: Readonly<Record<string, number>> = { quarter: 12, eighth: 6, '16th': 3 };

function note(type: string, isRest = false): XmlElement {
  const sound = isRest ? element('rest') : element('pitch', {}, [textElement('step', 'C'), textElement('octave', 4)]);
  return element('note', {}, [
    sound,
    textElement('duration', ticks[type] ?? 12),
    textElement('voice', 1),
    textElement('type', type),
    element('notations'),
  ]);
}

const names: Readonly<Record<string, string>> = { q: 'quarter', e: 'eighth', s: '16th' };

/** One bar: `q`, `e`, `s` for values, `r` for an eighth rest. */
const bar = (beats: string, unit: number, values: string): XmlElement =>
  element('score-partwise', {}, [
    element('part', {}, [
      element('measure', {}, [
        element('attributes', {}, [
          textElement('divisions', 12),
          element('time', {}, [textElement('beats', beats), textElement('beat-type', unit)]),
        ]),
        ...Array.from(values, (letter) => (letter === 'r' ? note('eighth', true) : note(names[letter] ?? 'quarter'))),
      ]),
    ]),
  ]);

// The groups of notes within a meter: common practice, no source.
describe('beams in trees that Heddle makes', () => {
  it.each([
    ['4', 4, 'eeeeeeee', '( ) ( ) ( ) ( )'],
    ['3', 4, 'eeeeee', '( ) ( ) ( )'],
    ['2', 2, 'eeeeeeee', '( - - ) ( - - )'],
    ['6', 8, 'eeeeee', '( - ) ( - )'],
    ['12', 8, 'qeqeeeeeee', '. . . . ( - ) ( - )'],
    ['2+3', 8, 'eeeee', '( ) ( - )'],
    ['4', 4, 'sesqessrr', '(> - )< . ( -( )) . .'],
    ['3', 4, 'eq', '. .'],
    ['3', 4, 'ee', '( )'],
    ['2', 4, 'ereq', '. . . .'],
    ['4', 4, 'qe', '. .'],
  ])('beams %s/%s %s as %s', (beats, unit, values, expected) => {
    expect(beamsOf(withBeams(bar(beats, unit, values)))).toBe(expected);
  });

  it('puts beams before notations, where the schema has them', () => {
    const part = childOf(withBeams(bar('4', 4, 'eeq')), 'part');
    const first = childOf(childOf(part, 'measure'), 'note');
    expect(first === undefined ? [] : elementsOf(first).map(({ name }) => name)).toEqual([
      'pitch',
      'duration',
      'voice',
      'type',
      'beam',
      'notations',
    ]);
  });

  // ABC 2.1, "Beams": “notes without white space between them are beamed together; back quotes are ignored”, from memory.
  it('keeps the beams that ABC’s white space says', () => {
    const beams = (music: string): string => beamsOf(abcToMusicXml(`X:1\nM:4/4\nL:1/8\nK:C\n${music}\n`).value);
    expect(beams('CDEF G A Bc|C2DE FzGA|')).toBe('( - - ) . . ( ) | . ( ) . . ( )');
    expect(beams('C`D E//F//G CD|')).toBe('( ) ((( -)) ) ( )');
    expect(beams('(3CDE F G|\nA- A B|')).toBe('( - ) . . | . . .');
    expect(beams('[CE][DF] {g}AB|')).toBe('( ) . ( )');
  });

  it('beams text tablature', () => {
    const tab = ['e|-0-1-3-0-1-3-0-1-|', ...['B', 'G', 'D', 'A', 'E'].map((name) => `${name}|-----------------|`)];
    expect(beamsOf(textTabToMusicXml(tab.join('\n')).value)).toBe('( ) ( ) ( ) ( )');
  });
});
