import { isElement, withAttributes, withChildren, type XmlDocument, type XmlElement } from '../xml/tree.ts';

type Change = (element: XmlElement) => XmlElement;

const within = (parent: XmlElement, name: string, change: Change): XmlElement =>
  withChildren(
    parent,
    parent.children.map((node) => (isElement(node, name) ? change(node) : node)),
  );

/** The document with the given ids on its notes and measures, all else untouched. */
export function withIds(document: XmlDocument, ids: ReadonlyMap<XmlElement, string>): XmlDocument {
  const named = (original: XmlElement, changed: XmlElement): XmlElement => {
    const id = ids.get(original);
    return id === undefined ? changed : withAttributes(changed, { id });
  };
  const note: Change = (element) => named(element, element);
  const measure: Change = (element) => named(element, within(element, 'note', note));
  return { ...document, root: within(document.root, 'part', (part) => within(part, 'measure', measure)) };
}
