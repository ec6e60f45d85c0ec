import { element, type XmlElement } from '../xml/tree.ts';
import { textElement } from './text-element.ts';

interface Kind {
  readonly kind: string;
  readonly degrees: readonly (readonly [value: number, alter: number, type: 'add' | 'alter'])[];
}

const plain = (kind: string): Kind => ({ kind, degrees: [] });

/** What stands after the root. **Source** MusicXML 4.0, kind-value; spellings are common practice, no source. */
const kinds: Readonly<Record<string, Kind>> = {
  '': plain('major'),
  maj: plain('major'),
  M: plain('major'),
  m: plain('minor'),
  min: plain('minor'),
  '-': plain('minor'),
  '5': plain('power'),
  '6': plain('major-sixth'),
  m6: plain('minor-sixth'),
  '7': plain('dominant'),
  m7: plain('minor-seventh'),
  min7: plain('minor-seventh'),
  maj7: plain('major-seventh'),
  M7: plain('major-seventh'),
  mmaj7: plain('major-minor'),
  mM7: plain('major-minor'),
  '9': plain('dominant-ninth'),
  m9: plain('minor-ninth'),
  maj9: plain('major-ninth'),
  '11': plain('dominant-11th'),
  m11: plain('minor-11th'),
  '13': plain('dominant-13th'),
  dim: plain('diminished'),
  o: plain('diminished'),
  dim7: plain('diminished-seventh'),
  o7: plain('diminished-seventh'),
  m7b5: plain('half-diminished'),
  aug: plain('augmented'),
  '+': plain('augmented'),
  aug7: plain('augmented-seventh'),
  sus: plain('suspended-fourth'),
  sus4: plain('suspended-fourth'),
  sus2: plain('suspended-second'),
  '7sus4': { kind: 'suspended-fourth', degrees: [[7, -1, 'add']] },
  add9: { kind: 'major', degrees: [[9, 0, 'add']] },
  madd9: { kind: 'minor', degrees: [[9, 0, 'add']] },
  '6/9': { kind: 'major-sixth', degrees: [[9, 0, 'add']] },
  '7b9': { kind: 'dominant', degrees: [[9, -1, 'add']] },
  '7#9': { kind: 'dominant', degrees: [[9, 1, 'add']] },
  '7b5': { kind: 'dominant', degrees: [[5, -1, 'alter']] },
  '7#5': { kind: 'dominant', degrees: [[5, 1, 'alter']] },
};

const chordShape = /^([A-G])([#b♯♭]?)((?:6\/9)?[^/\s]*)(?:\/([A-G])([#b♯♭]?))?$/;
const tail = /^(?:6\/9|maj|min|m|M|dim|aug|sus|add|no|omit|o|ø|\+|-|#|b|\(|\)|\d|Δ)*$/;

/** Whether a word is a chord symbol, or says that no chord sounds. */
export function isChordSymbol(text: string): boolean {
  if (/^n\.?c\.?$/i.test(text)) return true;
  const match = chordShape.exec(text);
  return match !== null && tail.test(match[3] ?? '');
}

const alterOf = (sign: string | undefined): number =>
  sign === '#' || sign === '♯' ? 1 : sign === 'b' || sign === '♭' ? -1 : 0;

function noteOf(name: 'root' | 'bass', step: string, sign: string | undefined): XmlElement {
  const alter = alterOf(sign);
  return element(name, {}, [
    textElement(`${name}-step`, step),
    ...(alter === 0 ? [] : [textElement(`${name}-alter`, alter)]),
  ]);
}

const degreeElement = ([value, alter, type]: Kind['degrees'][number]): XmlElement =>
  element('degree', {}, [
    textElement('degree-value', value),
    textElement('degree-alter', alter),
    textElement('degree-type', type),
  ]);

const noChord = (): XmlElement =>
  element('harmony', {}, [
    element('root', {}, [element('root-step', { text: '' }, ['C'])]),
    element('kind', { text: 'N.C.' }, ['none']),
  ]);

/** A chord symbol; a kind that has no name in the format is kept by its text. */
export function harmonyElement(text: string): XmlElement {
  const [, step, sign, written = '', bass, bassSign] = chordShape.exec(text) ?? [];
  if (step === undefined) return noChord();
  const kind = kinds[written.replaceAll(/[()]/g, '')] ?? plain('other');
  return element('harmony', {}, [
    noteOf('root', step, sign),
    element('kind', { text: written }, [kind.kind]),
    ...(bass === undefined ? [] : [noteOf('bass', bass, bassSign)]),
    ...kind.degrees.map(degreeElement),
  ]);
}
