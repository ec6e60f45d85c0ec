import { describe, expect, it } from 'vitest';
import { measuresXml } from '../../../tests/support/measures.ts';
import type { DynamicMark } from '../../score/score.ts';
import { readMusicXml, readNormalised } from './read-score.ts';

type Side = 'above' | 'below' | '';

const direction = (type: string, staff: number | null, side: Side): string =>
  `<direction${side === '' ? '' : ` placement="${side}"`}><direction-type>${type}</direction-type>${staff === null ? '' : `<staff>${staff}</staff>`}</direction>`;
const level = (name: string, staff: number | null, side: Side = ''): string =>
  direction(`<dynamics><${name}/></dynamics>`, staff, side);
const wedge = (type: string, staff: number): string => direction(`<wedge type="${type}"/>`, staff, '');
const note = (step: string, staff: number): string =>
  `<note><pitch><step>${step}</step><octave>4</octave></pitch><duration>96</duration><voice>${staff}</voice><staff>${staff}</staff></note>`;

/** A bar of one whole note on each staff, with what is said before each of them. */
const bar = (...saidOnStaves: readonly string[]): string =>
  saidOnStaves
    .map(
      (said, index) => `${index > 0 ? '<backup><duration>96</duration></backup>' : ''}${said}${note('C', index + 1)}`,
    )
    .join('');

function dynamicsOf(...bars: readonly string[]): readonly DynamicMark[] {
  const source = { fileName: 'staves', firstNoteNumber: 1, firstBarNumber: 1 };
  const read = readMusicXml(new TextEncoder().encode(measuresXml(bars, { name: 'Piano' })), source);
  if (!read.ok) throw new Error('the test’s own score cannot be read');
  expect(readNormalised(read.value.normalisedXml).value).toEqual(read.value.score);
  return read.value.score.dynamics;
}

/** Each level with its bar and its staves. */
const levelsOf = (...bars: readonly string[]): readonly string[] =>
  dynamicsOf(...bars).flatMap((mark) =>
    mark.kind === 'level' ? [`${mark.onsetTicks / 96 + 1} ${mark.level} ${mark.staves?.join('+') ?? 'all'}`] : [],
  );

// Where dynamics stand that are for one hand or for both: common practice, no source.
describe('a dynamic of a part with several staves', () => {
  it.each([
    ['is for its staff, where each staff says its own', ['1 p 1', '1 f 2'], [bar(level('p', 1), level('f', 2))]],
    [
      'is for all where one staff alone speaks',
      ['1 p all', '2 f all'],
      [bar(level('p', 1), ''), bar(level('f', 1), '')],
    ],
    [
      'is for all where it names no staff',
      ['1 p all', '2 f 2'],
      [bar(level('p', null), ''), bar('', level('f', 2, 'below'))],
    ],
    [
      'is for all where it stands above a lower staff',
      ['1 p all', '2 f all'],
      [bar(level('p', 1, 'below'), ''), bar('', level('f', 2, 'above'))],
    ],
    [
      'is for its staff where it stands outside',
      ['1 p 1', '1 f 2', '2 pp 2'],
      [bar(level('p', 1, 'above'), level('f', 2, 'below')), bar('', level('pp', 2, 'below'))],
    ],
    [
      'is for all where an upper staff speaks much oftener, but for what another says at that moment',
      ['1 p 1', '1 f 2', '2 mf all', '3 ff all'],
      [bar(level('p', 1, 'below'), level('f', 2, 'below')), bar(level('mf', 1), ''), bar(level('ff', 1, 'below'), '')],
    ],
    [
      'is for its staff where both speak about as often',
      ['1 p 1', '1 f 2', '2 mf 1'],
      [bar(level('p', 1, 'below'), level('f', 2, 'below')), bar(level('mf', 1, 'below'), '')],
    ],
    ['is for silent staves below it too', ['1 p 1', '1 f 2+3'], [bar(level('p', 1, 'above'), level('f', 2), '')]],
  ] as const)('%s', (_, wanted, bars) => expect(levelsOf(...bars)).toEqual(wanted));

  it('names its part and staves, and a hairpin ends on its own staff', () => {
    const [first, second] = [bar(wedge('crescendo', 1), wedge('diminuendo', 2)), bar(wedge('stop', 1), '')];
    expect(dynamicsOf(first, second, bar('', wedge('stop', 2)))).toEqual([
      { kind: 'hairpin', onsetTicks: 0, endTicks: 96, direction: 'louder', parts: ['P1'], staves: [1] },
      { kind: 'hairpin', onsetTicks: 0, endTicks: 192, direction: 'softer', parts: ['P1'], staves: [2] },
    ]);
  });

  it('is for the notes where the other staff is their tablature', () => {
    const tab =
      '<attributes><staves>2</staves><clef number="1"><sign>G</sign><line>2</line></clef><clef number="2"><sign>TAB</sign><line>5</line></clef></attributes>';
    expect(dynamicsOf(tab + bar(level('p', 1), level('f', 2))).map(({ staves }) => staves)).toEqual([
      undefined,
      undefined,
    ]);
  });
});
