import type { NeighbourOrnamentKind, NeighbourSide, Ornament } from '../../score/ornaments.ts';
import { element, type XmlElement } from '../xml/tree.ts';
import { accidentalNames } from './accidentals.ts';
import { textElement } from './text-element.ts';

const names: Readonly<Record<NeighbourOrnamentKind, string>> = {
  trill: 'trill-mark',
  mordent: 'mordent',
  invertedMordent: 'inverted-mordent',
  turn: 'turn',
  invertedTurn: 'inverted-turn',
  delayedTurn: 'delayed-turn',
  delayedInvertedTurn: 'delayed-inverted-turn',
};

function accidentalMark(alter: number | undefined, placement: NeighbourSide): XmlElement[] {
  const name = alter === undefined ? undefined : accidentalNames[String(alter)];
  return name === undefined ? [] : [textElement('accidental-mark', name, { placement })];
}

const signsOf = (ornament: Ornament): XmlElement[] =>
  ornament.kind === 'tremolo'
    ? [textElement('tremolo', ornament.strokes, { type: 'single' })]
    : [
        element(names[ornament.kind]),
        ...accidentalMark(ornament.alterAbove, 'above'),
        ...accidentalMark(ornament.alterBelow, 'below'),
      ];

/** Ornaments as notations, each followed by its accidentals. **Source** MusicXML 4.0, ornaments. */
export const ornamentElements = (ornaments: readonly Ornament[]): XmlElement[] =>
  ornaments.length === 0 ? [] : [element('ornaments', {}, ornaments.flatMap(signsOf))];
