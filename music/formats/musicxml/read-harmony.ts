import type { ChordSymbol, Tone } from '../../score/marks.ts';
import { nameOf } from '../../basis/pitch.ts';
import { childOf, childrenOf, childText, numberOf, textOf, type XmlElement } from '../xml/tree.ts';

/** What follows the root in print, by kind. **Source** MusicXML 4.0, kind-value; the signs are common practice. */
const suffixes: Readonly<Record<string, string>> = {
  major: '',
  minor: 'm',
  augmented: '+',
  diminished: '°',
  dominant: '7',
  'major-seventh': 'maj7',
  'minor-seventh': 'm7',
  'diminished-seventh': '°7',
  'augmented-seventh': '+7',
  'half-diminished': 'ø7',
  'major-minor': 'm(maj7)',
  'major-sixth': '6',
  'minor-sixth': 'm6',
  'dominant-ninth': '9',
  'major-ninth': 'maj9',
  'minor-ninth': 'm9',
  'dominant-11th': '11',
  'major-11th': 'maj11',
  'minor-11th': 'm11',
  'dominant-13th': '13',
  'major-13th': 'maj13',
  'minor-13th': 'm13',
  'suspended-second': 'sus2',
  'suspended-fourth': 'sus4',
  power: '5',
};

/** Kinds whose names stand in print too. **Source** MusicXML 4.0, kind-value. */
const otherKinds = ['Neapolitan', 'Italian', 'French', 'German', 'pedal', 'Tristan', 'other', 'none'];
const kinds = new Set([...Object.keys(suffixes), ...otherKinds]);

/** The kind of a harmony; one that is not among those of the format is `other`. */
function kindOf(harmony: XmlElement): string {
  const said = childText(harmony, 'kind');
  return kinds.has(said) ? said : 'other';
}

const steps = new Set<string>(['C', 'D', 'E', 'F', 'G', 'A', 'B']);

function toneOf(parent: XmlElement | undefined, name: 'root' | 'bass'): Tone | null {
  const step = childText(parent, `${name}-step`).toUpperCase();
  if (!steps.has(step)) return null;
  return { step: step as Tone['step'], alter: numberOf(childOf(parent, `${name}-alter`)) ?? 0 };
}

const toneText = (tone: Tone): string => nameOf({ ...tone, octave: 4 });

const signOfAlter = (alter: number): string => (alter > 0 ? '♯' : alter < 0 ? '♭' : '');

/** An added, altered or left out degree as it is printed: `add9`, `♭5`, `no3`. */
function degreeText(degree: XmlElement): string {
  const shown = childOf(degree, 'degree-type')?.attributes['text'];
  const value = childText(degree, 'degree-value');
  const alter = signOfAlter(numberOf(childOf(degree, 'degree-alter')) ?? 0);
  const type = childText(degree, 'degree-type');
  if (shown !== undefined) return `${shown}${alter}${value}`;
  if (type === 'subtract') return `no${value}`;
  return type === 'add' && alter === '' ? `add${value}` : `${alter}${value}`;
}

function suffixOf(harmony: XmlElement, kind: string): string {
  const shown = childOf(harmony, 'kind')?.attributes['text'];
  const degrees = childrenOf(harmony, 'degree')
    .filter((degree) => degree.attributes['print-object'] !== 'no')
    .map(degreeText);
  return `${shown ?? suffixes[kind] ?? ''}${degrees.length > 0 ? `(${degrees.join(',')})` : ''}`;
}

/** The root as printed: a tone, or the numeral or function where the symbol has no root. */
function rootText(harmony: XmlElement, root: Tone | null): string {
  if (root !== null) return childOf(childOf(harmony, 'root'), 'root-step')?.attributes['text'] ?? toneText(root);
  const numeral = childOf(childOf(harmony, 'numeral'), 'numeral-root');
  return numeral?.attributes['text'] || textOf(numeral) || childText(harmony, 'function');
}

/** The chord symbol of a `<harmony>`, or null where it prints nothing. **Source** MusicXML 4.0, harmony. */
export function chordSymbolOf(harmony: XmlElement): Omit<ChordSymbol, 'onsetTicks'> | null {
  const kind = kindOf(harmony);
  const root = toneOf(childOf(harmony, 'root'), 'root');
  const bass = toneOf(childOf(harmony, 'bass'), 'bass');
  const shown = rootText(harmony, kind === 'none' ? null : root) + suffixOf(harmony, kind);
  const text = `${shown === '' && kind === 'none' ? 'N.C.' : shown}${bass === null ? '' : `/${toneText(bass)}`}`;
  return text === '' ? null : { text, root: kind === 'none' ? null : root, kind, bass };
}
