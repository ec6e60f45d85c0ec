/** One element of a document to be written. */
export interface XmlElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string | number>>;
  readonly children: readonly (XmlElement | string)[];
}

type Child = XmlElement | string | number | null | readonly XmlElement[];

/** An element without attributes; `null` children are left out. */
export const element = (name: string, ...children: readonly Child[]): XmlElement => elementWith(name, {}, ...children);

/** An element with attributes; `null` children are left out. */
export function elementWith(
  name: string,
  attributes: XmlElement['attributes'],
  ...children: readonly Child[]
): XmlElement {
  const kept = children.flatMap((child): (XmlElement | string)[] => {
    if (child === null) return [];
    if (typeof child === 'number' || typeof child === 'string') return [String(child)];
    return Array.isArray(child) ? [...(child as readonly XmlElement[])] : [child as XmlElement];
  });
  return { name, attributes, children: kept };
}

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

/** The element as text, an element to a line. */
export function writeXml(node: XmlElement): string {
  const attributes = Object.entries(node.attributes)
    .map(([name, value]) => ` ${name}="${escaped(String(value))}"`)
    .join('');
  const open = `<${node.name}${attributes}`;
  if (node.children.length === 0) return `${open}/>\n`;
  const isText = node.children.every((child) => typeof child === 'string');
  const inner = node.children.map((child) => (typeof child === 'string' ? escaped(child) : writeXml(child))).join('');
  return isText ? `${open}>${inner}</${node.name}>\n` : `${open}>\n${inner}</${node.name}>\n`;
}
