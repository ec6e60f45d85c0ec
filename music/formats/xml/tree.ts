/** A comment, a processing instruction or a CDATA section, kept so that it can be written back. */
export interface XmlMarkup {
  readonly kind: 'comment' | 'instruction' | 'cdata';
  readonly text: string;
}

/** An element with its attributes in written order. Elements that hold nothing but the same short text may be one object. */
export interface XmlElement {
  readonly kind: 'element';
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  /** Plain strings are text, white space between elements included. */
  readonly children: readonly XmlNode[];
  /** Where the attributes of its start tag end in the text that it was read from; −1 where it was not read from one that is kept. */
  readonly attributesEnd: number;
}

/** Anything that may stand within an element. */
export type XmlNode = XmlElement | XmlMarkup | string;

/** The text that a tree was read from. */
interface WrittenTree {
  readonly text: string;
  /** The tree as it was read; a document with another root is no longer what the text says. */
  readonly root: XmlElement;
}

/** A whole document: its root, what stands around it, and the DOCTYPE without internal subset that it may have. */
export interface XmlDocument {
  readonly doctype: string | null;
  readonly before: readonly XmlMarkup[];
  readonly root: XmlElement;
  readonly after: readonly XmlMarkup[];
  /** The elements that were read with an `id` attribute. */
  readonly identified: readonly XmlElement[];
  /** Null where the tree was not read from a plain text. */
  readonly written: WrittenTree | null;
}

/** Stands for no attributes wherever there are none. */
export const noAttributes: Readonly<Record<string, string>> = {};

/** A new element. */
export const element = (
  name: string,
  attributes: Readonly<Record<string, string>> = noAttributes,
  children: readonly XmlNode[] = [],
): XmlElement => ({ kind: 'element', name, attributes, children, attributesEnd: -1 });

/** The same element with other children. */
export const withChildren = (original: XmlElement, children: readonly XmlNode[]): XmlElement => ({
  ...original,
  children,
});

/** The same element with some attributes set; a new attribute stands last. */
export const withAttributes = (original: XmlElement, attributes: Readonly<Record<string, string>>): XmlElement => ({
  ...original,
  attributes: { ...original.attributes, ...attributes },
});

/** Whether a node is an element, of the given name if one is given. */
export const isElement = (node: XmlNode, name?: string): node is XmlElement =>
  typeof node !== 'string' && node.kind === 'element' && (name === undefined || node.name === name);

/** The child elements in order. */
export const elementsOf = (parent: XmlElement): XmlElement[] =>
  parent.children.filter((node): node is XmlElement => isElement(node));

/** The child elements of one name in order. */
export const childrenOf = (parent: XmlElement, name: string): XmlElement[] =>
  parent.children.filter((node): node is XmlElement => isElement(node, name));

/** The first child element of a name. */
export function childOf(parent: XmlElement | undefined, name: string): XmlElement | undefined {
  if (parent === undefined) return undefined;
  for (const node of parent.children) if (isElement(node, name)) return node;
  return undefined;
}

/** The text directly within an element, without white space around it; empty for an absent element. */
export function textOf(parent: XmlElement | undefined): string {
  if (parent === undefined) return '';
  const first = parent.children[0];
  if (parent.children.length === 1 && typeof first === 'string') return first.trim();
  let text = '';
  for (const node of parent.children) {
    if (typeof node === 'string') text += node;
    else if (node.kind === 'cdata') text += node.text;
  }
  return text.trim();
}

/** The text of the first child of a name; empty where there is none. */
export const childText = (parent: XmlElement | undefined, name: string): string => textOf(childOf(parent, name));

/** The number that an element's text says, or null where it says none. */
export function numberOf(parent: XmlElement | undefined): number | null {
  const text = textOf(parent);
  if (text === '') return null;
  const number = Number(text);
  return Number.isFinite(number) ? number : null;
}
