import { prologText, serialiseXml } from './serialise-xml.ts';
import type { XmlDocument, XmlElement } from './tree.ts';

/** An element and the id that it gets in the place of its own. */
export interface NewId {
  readonly element: XmlElement;
  /** Letters, digits and dashes. */
  readonly id: string;
}

const attribute = /[ \n\t]+([\w:.-]+)[ \n\t]*=[ \n\t]*(?:"[^"]*"|'[^']*')/g;

/** A start tag, as far as its attributes go, with another id. */
function withId(tag: string, id: string): string {
  // Blanks that no attribute follows are not searched: one would look on from each of them to the last.
  const { length } = tag.trimEnd();
  const told = tag
    .slice(0, length)
    .replace(attribute, (whole, name: string) => (name === 'id' ? ` id="${id}"` : whole));
  return told + tag.slice(length);
}

/** A text with ids put into its start tags; all else stays as it is written. */
function textWithIds(text: string, from: number, ids: readonly NewId[]): string {
  const pieces: string[] = [];
  let at = from;
  for (const { element, id } of ids) {
    const { attributes, attributesEnd } = element;
    const hasId = attributes['id'] !== undefined;
    const tagAt = hasId ? text.lastIndexOf('<', attributesEnd) : attributesEnd;
    pieces.push(text.slice(at, tagAt));
    pieces.push(hasId ? withId(text.slice(tagAt, attributesEnd), id) : ` id="${id}"`);
    at = attributesEnd;
  }
  pieces.push(text.slice(at).trimEnd(), '\n');
  return pieces.join('');
}

/** A document as UTF-8 text with an XML declaration and with new ids, which are given in the order of the document; parsing it gives an equal tree but for the ids. What is as it was read keeps its own words, which spares writing every element anew. */
export function identifiedText(document: XmlDocument, ids: readonly NewId[]): string {
  const { root, written } = document;
  if (written?.root !== root) return serialiseXml(document, new Map(ids.map(({ element, id }) => [element, id])));
  const rootAt = written.text.lastIndexOf('<', root.attributesEnd);
  return prologText(document) + textWithIds(written.text, rootAt, ids);
}
