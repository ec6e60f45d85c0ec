import type { PartId } from '../../basis/ids.ts';
import { childOf, childrenOf, element, isElement, textOf, withChildren, type XmlElement } from '../xml/tree.ts';

/** How many octaves from written to sounding pitch a person may choose, down or up. */
export const mostOctaves = 3;

/** What a person decided about how parts with frets sound; null where the evidence decides. */
export interface SoundingChoice {
  /** Octaves from written to sounding pitch: −1 for guitar music written an octave higher than it sounds. */
  readonly octave: number | null;
  /** Whether pitches are written as shapes before the capo, or as they sound with it. */
  readonly capo: 'shapes' | 'sounding' | null;
}

/** A choice for every part with frets, and those of single parts, which go before it. */
export interface SoundingChoices {
  readonly all: SoundingChoice;
  readonly ofParts: ReadonlyMap<PartId, SoundingChoice>;
}

/** What was decided for one part. */
export function choiceFor({ all, ofParts }: SoundingChoices, part: PartId): SoundingChoice {
  const own = ofParts.get(part);
  return { octave: own?.octave ?? all.octave, capo: own?.capo ?? all.capo };
}

const octaveField = 'heddle-octave';
const capoField = 'heddle-capo';

/** The field of one part bears its id behind a colon, which no XML id holds. */
const fieldOf = (name: string, part: PartId): string => `${name}:${part}`;

function fieldsIn(root: XmlElement): ReadonlyMap<string, string> {
  const miscellaneous = childOf(childOf(root, 'identification'), 'miscellaneous');
  const fields = miscellaneous === undefined ? [] : childrenOf(miscellaneous, 'miscellaneous-field');
  return new Map(fields.map((field) => [field.attributes['name'] ?? '', textOf(field)]));
}

function choiceOf(octave = '', capo = ''): SoundingChoice {
  return {
    octave: /^-?[0-3]$/.test(octave) ? Number(octave) : null,
    capo: capo === 'shapes' || capo === 'sounding' ? capo : null,
  };
}

/** The choices that a document carries, for its parts. **Source** MusicXML 4.0, miscellaneous-field. */
export function choicesIn(root: XmlElement, parts: readonly PartId[]): SoundingChoices {
  const fields = fieldsIn(root);
  const own = (part: PartId): SoundingChoice =>
    choiceOf(fields.get(fieldOf(octaveField, part)), fields.get(fieldOf(capoField, part)));
  return {
    all: choiceOf(fields.get(octaveField), fields.get(capoField)),
    ofParts: new Map(parts.map((part) => [part, own(part)])),
  };
}

/** The elements before the identification. **Source** MusicXML 4.0, score-header. */
const beforeIdentification = new Set(['work', 'movement-number', 'movement-title']);

/** Whether one field decides what another one did: of the same name, or for all parts where that is for one. */
const replaces = (name: string, other: string): boolean => other === name || other.startsWith(`${name}:`);

/** Fields take the place of those that they decide anew. **Source** MusicXML 4.0, identification: miscellaneous stands last. */
function withFields(miscellaneous: XmlElement, fields: readonly XmlElement[]): XmlElement {
  const names = fields.map(({ attributes }) => attributes['name'] ?? '');
  const isReplaced = (other: string): boolean => names.some((name) => replaces(name, other));
  const kept = miscellaneous.children.filter((node) => !isElement(node) || !isReplaced(node.attributes['name'] ?? ''));
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

function fieldsOf({ all, ofParts }: SoundingChoices): readonly XmlElement[] {
  const field = (name: string, value: string | number | null): readonly XmlElement[] =>
    value === null ? [] : [element('miscellaneous-field', { name }, [String(value)])];
  return [
    ...field(octaveField, all.octave),
    ...field(capoField, all.capo),
    ...[...ofParts].flatMap(([part, { octave, capo }]) => [
      ...field(fieldOf(octaveField, part), octave),
      ...field(fieldOf(capoField, part), capo),
    ]),
  ];
}

/** A document's root with choices written into it, so that whoever reads the document again decides the same. */
export function withChoices(root: XmlElement, choices: SoundingChoices): XmlElement {
  const fields = fieldsOf(choices);
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
