import type { Jump } from '../../score/score.ts';
import type { Transposition, WrittenBar, WrittenDirection } from '../../score/written.ts';
import { element, type XmlElement, type XmlNode } from '../xml/tree.ts';
import { textElement } from './text-element.ts';
import { toneText, writtenSymbol } from './transposed.ts';

type Placement = 'above' | 'below';

function direction(types: XmlElement[], placement: Placement, offset: XmlElement[], sound: XmlElement[]): XmlElement {
  return element('direction', { placement }, [
    ...types.map((type) => element('direction-type', {}, [type])),
    ...offset,
    ...sound,
  ]);
}

/** A metronome mark as people print it, to hundredths; the sound beside it says the tempo exactly. */
function metronome(quartersPerMinute: number): XmlElement {
  const printed = Number(quartersPerMinute.toFixed(2));
  return element('metronome', {}, [textElement('beat-unit', 'quarter'), textElement('per-minute', printed)]);
}

type Part<Kind extends WrittenDirection['kind']> = Extract<WrittenDirection, { kind: Kind }>;

/** A ratio in whole numbers, as the format has them: the smallest that are exact, else hundredths. */
function wholeRatio(long: number, short: number): readonly [long: number, short: number] {
  const isWhole = (times: number): boolean => Number.isInteger(long * times) && Number.isInteger(short * times);
  const exact = Array.from({ length: 100 }, (_, index) => index + 1).find(isWhole) ?? 100;
  return [Math.max(1, Math.round(long * exact)), Math.max(1, Math.round(short * exact))];
}

function swingElement({ swing }: Part<'swing'>, offset: XmlElement[]): XmlElement {
  const { long, short, unit } = swing;
  const [first, second] = wholeRatio(long, short);
  const ratio =
    long === short
      ? [element('straight')]
      : [textElement('first', first), textElement('second', second), textElement('swing-type', unit)];
  return element('sound', {}, [element('swing', {}, ratio), ...offset]);
}

function toneElement(
  name: 'root' | 'bass',
  tone: { readonly step: string; readonly alter: number },
  text?: string,
): XmlElement {
  const alter = tone.alter === 0 ? [] : [textElement(`${name}-alter`, tone.alter)];
  return element(name, {}, [textElement(`${name}-step`, tone.step, text === undefined ? {} : { text }), ...alter]);
}

/** A chord symbol; what is printed after its root is told word for word. **Source** MusicXML 4.0, harmony, kind. */
function harmonyElement(
  { symbol }: Part<'chordSymbol'>,
  offset: XmlElement[],
  transposition: Transposition | null,
): XmlElement {
  const { root, bass, kind, text } = writtenSymbol(symbol, transposition);
  const bassText = bass === null ? '' : `/${toneText(bass)}`;
  const upToBass = bassText !== '' && text.endsWith(bassText) ? text.slice(0, -bassText.length) : text;
  const bassElements = bass === null ? [] : [toneElement('bass', bass)];
  const withKind = (before: XmlElement, shown: string): XmlElement =>
    element('harmony', {}, [before, textElement('kind', kind, { text: shown }), ...bassElements, ...offset]);
  if (root === null)
    return kind === 'none'
      ? withKind(toneElement('root', { step: 'C', alter: 0 }, ''), upToBass)
      : withKind(textElement('function', upToBass), '');
  const rootName = toneText(root);
  return upToBass.startsWith(rootName)
    ? withKind(toneElement('root', root), upToBass.slice(rootName.length))
    : withKind(toneElement('root', root, ''), upToBass);
}

/** A direction as an element that stands before an event, `offsetTicks` before what it is for. */
export function directionElement(
  written: WrittenDirection,
  offsetTicks: number,
  transposition: Transposition | null,
): XmlElement {
  const attributes: Readonly<Record<string, string>> = written.kind === 'tempo' ? { sound: 'yes' } : {};
  const offset = offsetTicks === 0 ? [] : [textElement('offset', offsetTicks, attributes)];
  switch (written.kind) {
    case 'tempo':
      return direction([metronome(written.quartersPerMinute)], 'above', offset, [
        element('sound', { tempo: String(written.quartersPerMinute) }),
      ]);
    case 'words':
      return direction([textElement('words', written.text)], 'above', offset, []);
    case 'swing':
      return swingElement(written, offset);
    case 'chordSymbol':
      return harmonyElement(written, offset, transposition);
    case 'level':
      return direction([element('dynamics', {}, [element(written.level)])], 'below', offset, []);
    case 'accent':
      return direction([element('dynamics', {}, [element(written.sign)])], 'below', offset, []);
    case 'hairpinStart': {
      const type = written.direction === 'louder' ? 'crescendo' : 'diminuendo';
      return direction([element('wedge', { type, number: String(written.number) })], 'below', offset, []);
    }
    case 'hairpinStop':
      return direction([element('wedge', { type: 'stop', number: String(written.number) })], 'below', offset, []);
  }
}

const signAtStart = (name: 'segno' | 'coda'): XmlElement =>
  direction([element(name)], 'above', [], [element('sound', { [name]: name })]);

const wordsAtEnd = (text: string, sound: Readonly<Record<string, string>>): XmlElement =>
  direction([textElement('words', text)], 'above', [], [element('sound', sound)]);

/** How the way after a return goes on: to the coda, to the fine, or to the end. */
function onward(jumps: ReadonlySet<Jump>): string {
  if (jumps.has('toCoda')) return ' al Coda';
  return jumps.has('fine') ? ' al Fine' : '';
}

/** The signs at the start of a bar: its rehearsal mark, segno and coda. */
export const openingSigns = ({ signs }: WrittenBar): XmlElement[] => [
  ...(signs.rehearsalMark === null
    ? []
    : [direction([textElement('rehearsal', signs.rehearsalMark)], 'above', [], [])]),
  ...(signs.jumps.includes('segno') ? [signAtStart('segno')] : []),
  ...(signs.jumps.includes('coda') ? [signAtStart('coda')] : []),
];

/** The jumps at the end of a bar, in the words of the trade; `all` are those of the whole score. */
export function closingSigns({ signs }: WrittenBar, all: ReadonlySet<Jump>): XmlNode[] {
  const { jumps } = signs;
  return [
    ...(jumps.includes('toCoda') ? [wordsAtEnd('To Coda', { tocoda: 'coda' })] : []),
    ...(jumps.includes('fine') ? [wordsAtEnd('Fine', { fine: 'yes' })] : []),
    ...(jumps.includes('daCapo') ? [wordsAtEnd(`D.C.${onward(all)}`, { dacapo: 'yes' })] : []),
    ...(jumps.includes('dalSegno') ? [wordsAtEnd(`D.S.${onward(all)}`, { dalsegno: 'segno' })] : []),
  ];
}
