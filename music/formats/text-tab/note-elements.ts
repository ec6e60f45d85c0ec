import { pitchOfMidi, type Pitch } from '../../basis/pitch.ts';
import { element, type XmlElement } from '../xml/tree.ts';
import type { Bend, FretSign, Link } from './fret-sign.ts';
import type { PrintedValue } from './printed-values.ts';
import { textElement } from './text-element.ts';

/** What the notes of a score have in common. */
export interface NoteContext {
  /** Open strings, highest first. **Units** MIDI note numbers. */
  readonly tuning: readonly number[];
  readonly capoFret: number;
  readonly fifths: number;
}

/** How one printed piece of a fret stands among the pieces tied to it. */
export interface PieceEdges {
  readonly isFirst: boolean;
  readonly isLast: boolean;
  readonly isTiedFromBefore: boolean;
  readonly isTiedOn: boolean;
}

/** What stands around a moment and belongs to each of its notes. */
export interface MomentMarks {
  readonly isPalmMuted: boolean;
  readonly letsRing: boolean;
}

const pitchOf = (fret: FretSign, { tuning, capoFret, fifths }: NoteContext): Pitch =>
  pitchOfMidi((tuning[fret.string] ?? 0) + (fret.fret === null ? 0 : capoFret + fret.fret), fifths);

/** What sounds: for a dead note the open string's place, where its head is drawn. */
export function soundElement(fret: FretSign, context: NoteContext): XmlElement {
  const { step, alter, octave } = pitchOf(fret, context);
  if (fret.fret === null)
    return element('unpitched', {}, [textElement('display-step', step), textElement('display-octave', octave)]);
  const altered = alter === 0 ? [] : [textElement('alter', alter)];
  return element('pitch', {}, [textElement('step', step), ...altered, textElement('octave', octave)]);
}

/** The elements that print a value. */
export function valueElements({ type, dots, isTriplet }: PrintedValue): XmlElement[] {
  if (type === null) return [];
  const triplet = element('time-modification', {}, [textElement('actual-notes', 3), textElement('normal-notes', 2)]);
  return [
    textElement('type', type),
    ...Array.from({ length: dots }, () => element('dot')),
    ...(isTriplet ? [triplet] : []),
  ];
}

/** A dead note has an x, a ghost note brackets. */
export function headElements({ fret, isGhost }: FretSign): XmlElement[] {
  if (fret !== null && !isGhost) return [];
  return [element('notehead', isGhost ? { parentheses: 'yes' } : {}, [fret === null ? 'x' : 'normal'])];
}

const legatoNames: Readonly<Record<Exclude<Link, 'slide'>, readonly [string, string]>> = {
  hammerOn: ['hammer-on', 'H'],
  pullOff: ['pull-off', 'P'],
};

function legato(fret: FretSign, { isFirst, isLast }: PieceEdges): XmlElement[] {
  const number = String(fret.string + 1);
  const made = (link: Link | null, type: 'start' | 'stop'): XmlElement[] => {
    if (link === null || link === 'slide') return [];
    const [name, letter] = legatoNames[link];
    return [element(name, { type, number }, type === 'start' ? [letter] : [])];
  };
  return [...(isFirst ? made(fret.link, 'stop') : []), ...(isLast ? made(fret.linkToNext, 'start') : [])];
}

function slides(fret: FretSign, { isFirst, isLast }: PieceEdges): XmlElement[] {
  const number = String(fret.string + 1);
  const made = (link: Link | null, type: string): XmlElement[] =>
    link === 'slide' ? [element('slide', { type, number })] : [];
  return [...(isFirst ? made(fret.link, 'stop') : []), ...(isLast ? made(fret.linkToNext, 'start') : [])];
}

function bends(bend: Bend | null): XmlElement[] {
  if (bend === null) return [];
  const alter = textElement('bend-alter', bend.semitones);
  const up = element('bend', {}, [alter, ...(bend.isBentBefore ? [element('pre-bend')] : [])]);
  return bend.isReleased
    ? [up, element('bend', {}, [textElement('bend-alter', -bend.semitones), element('release')])]
    : [up];
}

function harmonics({ harmonic }: FretSign): XmlElement[] {
  if (harmonic === null) return [];
  const parts = harmonic === 'natural' ? ['natural', 'touching-pitch'] : ['artificial', 'base-pitch'];
  return [
    element(
      'harmonic',
      {},
      parts.map((name) => element(name)),
    ),
  ];
}

const slideInNames = { fromBelow: 'scoop', fromAbove: 'plop' } as const;
const slideOutNames = { up: 'doit', down: 'falloff' } as const;

function articulations({ slideIn, slideOut }: FretSign, { isFirst, isLast }: PieceEdges): XmlElement[] {
  const signs = [
    ...(slideIn !== null && isFirst ? [element(slideInNames[slideIn])] : []),
    ...(slideOut !== null && isLast ? [element(slideOutNames[slideOut])] : []),
  ];
  return signs.length === 0 ? [] : [element('articulations', {}, signs)];
}

const vibrato = (): XmlElement =>
  element('ornaments', {}, [element('wavy-line', { type: 'start' }), element('wavy-line', { type: 'stop' })]);

function technical(fret: FretSign, edges: PieceEdges, capless: number): XmlElement {
  const onFirst = edges.isFirst
    ? [
        ...harmonics(fret),
        ...(fret.isTapped ? [element('tap')] : []),
        ...bends(fret.bend),
        ...(fret.fret === null ? [textElement('other-technical', 'dead note')] : []),
      ]
    : [];
  return element('technical', {}, [
    textElement('string', fret.string + 1),
    textElement('fret', capless),
    ...legato(fret, edges),
    ...onFirst,
  ]);
}

/** All notations of one printed piece of a fret. */
export function notationsElement(
  fret: FretSign,
  edges: PieceEdges,
  marks: MomentMarks,
  tuplet: readonly XmlElement[],
): XmlElement {
  return element('notations', {}, [
    ...(edges.isTiedFromBefore ? [element('tied', { type: 'stop' })] : []),
    ...(edges.isTiedOn ? [element('tied', { type: 'start' })] : []),
    ...(marks.letsRing && edges.isLast ? [element('tied', { type: 'let-ring' })] : []),
    ...tuplet,
    ...slides(fret, edges),
    ...(fret.hasVibrato && edges.isFirst ? [vibrato()] : []),
    technical(fret, edges, fret.fret ?? 0),
    ...articulations(fret, edges),
  ]);
}
