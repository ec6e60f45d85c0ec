import { isElement, type XmlElement } from '../xml/tree.ts';

const localName = (name: string): string => name.slice(name.indexOf(':') + 1);

function renamed(element: XmlElement, prefix: string): XmlElement {
  const children = element.children.map((node) => (isElement(node) ? renamed(node, prefix) : node));
  const name = element.name.startsWith(prefix) ? localName(element.name) : element.name;
  return { ...element, name, children };
}

/** The prefix of the root's name with its colon; empty where it has none. */
export const prefixOfRoot = (root: XmlElement): string =>
  root.name.includes(':') ? root.name.slice(0, root.name.indexOf(':') + 1) : '';

/** A tree without the namespace prefix of its root; MusicXML itself is in no namespace. **Source** Namespaces in XML 1.0, section 4; MusicXML 4.0. */
export const withoutPrefix = (root: XmlElement): XmlElement => {
  const prefix = prefixOfRoot(root);
  return prefix === '' ? root : renamed(root, prefix);
};
