import { parseXml } from '../../../music/formats/xml/parse-xml.ts';
import { serialiseXml } from '../../../music/formats/xml/serialise-xml.ts';
import {
  childOf,
  childText,
  element,
  isElement,
  withChildren,
  type XmlElement,
  type XmlNode,
} from '../../../music/formats/xml/tree.ts';

/** Changes one element into others, none, or itself. */
export type Edit = (element: XmlElement) => readonly XmlNode[];

/** The root of a MusicXML text. */
export function rootOf(xml: string): XmlElement {
  const document = parseXml(xml);
  if (!document.ok) throw new Error(document.refusal.detail);
  return document.value.root;
}

/** A root as MusicXML text. */
export const textOfRoot = (root: XmlElement): string => serialiseXml({ doctype: null, before: [], root, after: [] });

/** The tree with every element of a name changed, at any depth. */
export function editAll(parent: XmlElement, name: string, edit: Edit): XmlElement {
  return withChildren(
    parent,
    parent.children.flatMap((node): readonly XmlNode[] => {
      if (!isElement(node)) return [node];
      const inner = editAll(node, name, edit);
      return inner.name === name ? edit(inner) : [inner];
    }),
  );
}

/** An element that holds only text. */
export const leaf = (name: string, text: string | number): XmlElement => element(name, {}, [String(text)]);

/** The element with the first child of a name replaced; as it was where it has none. */
export const withChild = (parent: XmlElement, child: XmlElement): XmlElement =>
  withChildren(
    parent,
    parent.children.map((node) => (isElement(node, child.name) ? child : node)),
  );

/** The element without children of some names. */
export const without = (parent: XmlElement, ...names: readonly string[]): XmlElement =>
  withChildren(
    parent,
    parent.children.filter((node) => !(isElement(node) && names.includes(node.name))),
  );

/** The staff that a note, clef or staff detail is for. */
export const staffOf = (node: XmlElement): number =>
  Number(childText(node, 'staff') || (node.attributes['number'] ?? '1'));

/** The octave of a pitch moved. */
export function octaveMoved(pitch: XmlElement, octaves: number): XmlElement {
  return withChild(pitch, leaf('octave', Number(childText(pitch, 'octave')) + octaves));
}

/** Whether a note prints an x. */
export const isTap = (note: XmlElement): boolean =>
  childText(note, 'notehead') === 'x' && childOf(note, 'rest') === undefined;
