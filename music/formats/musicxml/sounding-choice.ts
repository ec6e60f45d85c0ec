import { childOf, childrenOf, element, isElement, textOf, withChildren, type XmlElement } from '../xml/tree.ts';

/** What a person decided about how the frets' parts of a file sound; null where the evidence decides. */
export interface SoundingChoice {
  /** Octaves from written to sounding pitch: −1 for guitar music written an octave higher than it sounds. */
  readonly octave: number | null;
  /** Whether pitches are written as shapes before the capo, or as they sound with it. */
  readonly capo: 'shapes' | 'sounding' | null;
}

const octaveField = 'heddle-octave';
const capoField = 'heddle-capo';

function fieldText(root: XmlElement, name: string): string {
  const miscellaneous = childOf(childOf(root, 'identification'), 'miscellaneous');
  const fields = miscellaneous === undefined ? [] : childrenOf(miscellaneous, 'miscellaneous-field');
  return textOf(fields.find(({ attributes }) => attributes['name'] === name));
}

/** The choice that a document carries. **Source** MusicXML 4.0, miscellaneous-field. */
export function choiceIn(root: XmlElement): SoundingChoice {
  const octave = fieldText(root, octaveField);
  const capo = fieldText(root, capoField);
  return {
    octave: /^-?[0-3]$/.test(octave) ? Number(octave) : null,
    capo: capo === 'shapes' || capo === 'sounding' ? capo : null,
  };
}

/** The elements before the identification. **Source** MusicXML 4.0, score-header. */
const beforeIdentification = new Set(['work', 'movement-number', 'movement-title']);

/** Fields take the place of those of their names. **Source** MusicXML 4.0, identification: miscellaneous stands last. */
function withFields(miscellaneous: XmlElement, fields: readonly XmlElement[]): XmlElement {
  const names = new Set(fields.map(({ attributes }) => attributes['name']));
  const kept = miscellaneous.children.filter((node) => !isElement(node) || !names.has(node.attributes['name']));
  return withChildren(miscellaneous, [...kept, ...fields]);
}

function withMiscellaneous(identification: XmlElement, fields: readonly XmlElement[]): XmlElement {
  const own = childOf(identification, 'miscellaneous');
  if (own === undefined) {
    const made = withFields(element('miscellaneous'), fields);
    return withChildren(identification, [...identification.children, made]);
  }
  return withChildren(
    identification,
    identification.children.map((node) => (node === own ? withFields(own, fields) : node)),
  );
}

/** A document's root with a choice written into it, so that whoever reads the document again decides the same. */
export function withChoice(root: XmlElement, { octave, capo }: SoundingChoice): XmlElement {
  const field = (name: string, text: string): XmlElement => element('miscellaneous-field', { name }, [text]);
  const fields = [
    ...(octave === null ? [] : [field(octaveField, String(octave))]),
    ...(capo === null ? [] : [field(capoField, capo)]),
  ];
  if (fields.length === 0) return root;
  const own = childOf(root, 'identification');
  if (own !== undefined)
    return withChildren(
      root,
      root.children.map((node) => (node === own ? withMiscellaneous(own, fields) : node)),
    );
  const made = withMiscellaneous(element('identification'), fields);
  const at = root.children.findIndex((node) => isElement(node) && !beforeIdentification.has(node.name));
  return withChildren(root, [...root.children.slice(0, at), made, ...root.children.slice(at)]);
}
