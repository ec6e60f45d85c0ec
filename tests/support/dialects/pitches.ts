import { pitchOfMidi, midiOf, type Pitch } from '../../../music/basis/pitch.ts';
import { childText, element, isElement, withChildren, type XmlElement } from '../../../music/formats/xml/tree.ts';
import { editAll, isTap, leaf, octaveMoved, staffOf, without, withChild } from './edit-tree.ts';

const anOctaveUp = (root: XmlElement): XmlElement => editAll(root, 'pitch', (pitch) => [octaveMoved(pitch, 1)]);
const plainClefs = (root: XmlElement): XmlElement =>
  editAll(root, 'clef', (clef) => [without(clef, 'clef-octave-change')]);

/** Written an octave above its sound, under a plain clef, with nothing that says so. */
export const octaveUnsaid = (root: XmlElement): XmlElement => plainClefs(anOctaveUp(root));

/** Written an octave above its sound, under a plain clef, with a transposition that says so. */
export function octaveByTransposition(root: XmlElement): XmlElement {
  const transpose = element('transpose', {}, [leaf('diatonic', 0), leaf('chromatic', 0), leaf('octave-change', -1)]);
  return editAll(octaveUnsaid(root), 'attributes', (attributes) => [
    attributes.children.some((node) => isElement(node, 'clef'))
      ? withChildren(attributes, [...attributes.children, transpose])
      : attributes,
  ]);
}

/** Hits as unpitched notes where their x heads stood. */
export function hitsUnpitched(root: XmlElement): XmlElement {
  return editAll(root, 'note', (note) => {
    if (!isTap(note)) return [note];
    return [
      withChildren(
        note,
        note.children.map((node) =>
          !isElement(node, 'pitch')
            ? node
            : element('unpitched', {}, [
                leaf('display-step', childText(node, 'step')),
                leaf('display-octave', Number(childText(node, 'octave')) + 1),
              ]),
        ),
      ),
    ];
  });
}

/** A capo that the staff details name; pitches and frets stay, so that all of it sounds higher. */
export const capoByElement = (root: XmlElement, fret: number): XmlElement =>
  editAll(root, 'staff-details', (details) => [
    withChildren(without(details, 'capo'), [...without(details, 'capo').children, leaf('capo', fret)]),
  ]);

/** A capo that only words above the first bar name. */
export function capoByWords(root: XmlElement, words: string): XmlElement {
  let isFirst = true;
  return editAll(root, 'measure', (measure) => {
    if (!isFirst) return [measure];
    isFirst = false;
    const direction = element('direction', {}, [element('direction-type', {}, [leaf('words', words)])]);
    const at = measure.children.findIndex((node) => isElement(node, 'attributes')) + 1;
    return [withChildren(measure, [...measure.children.slice(0, at), direction, ...measure.children.slice(at)])];
  });
}

function raised(pitch: XmlElement, semitones: number): XmlElement {
  const from: Pitch = {
    step: childText(pitch, 'step') as Pitch['step'],
    alter: Number(childText(pitch, 'alter') || 0),
    octave: Number(childText(pitch, 'octave')),
  };
  const to = pitchOfMidi(midiOf(from) + semitones, 0);
  return element('pitch', {}, [
    leaf('step', to.step),
    ...(to.alter === 0 ? [] : [leaf('alter', to.alter)]),
    leaf('octave', to.octave),
  ]);
}

/** A capo with the notation at the pitches that sound and the tablature at the frets above the capo. */
export function capoAsSounding(root: XmlElement, fret: number): XmlElement {
  return editAll(capoByElement(root, fret), 'note', (note) => {
    const pitch = note.children.find((node): node is XmlElement => isElement(node, 'pitch'));
    return [pitch === undefined || staffOf(note) !== 1 ? note : withChild(note, raised(pitch, fret))];
  });
}
