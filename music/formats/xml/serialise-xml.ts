import type { XmlDocument, XmlElement, XmlMarkup, XmlNode } from './tree.ts';

const textEscapes: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '\r': '&#13;' };
const attributeEscapes: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '"': '&quot;',
  '\t': '&#9;',
  '\n': '&#10;',
  '\r': '&#13;',
};

const escapeText = (text: string): string =>
  /[&<>\r]/.test(text) ? text.replace(/[&<>\r]/g, (sign) => textEscapes[sign] ?? sign) : text;

const escapeAttribute = (text: string): string =>
  /[&<"\t\n\r]/.test(text) ? text.replace(/[&<"\t\n\r]/g, (sign) => attributeEscapes[sign] ?? sign) : text;

function markupText({ kind, text }: XmlMarkup): string {
  if (kind === 'comment') return `<!--${text}-->`;
  if (kind === 'cdata') return `<![CDATA[${text}]]>`;
  return `<?${text}?>`;
}

function writeElement({ name, attributes, children }: XmlElement, out: string[]): void {
  let tag = `<${name}`;
  for (const key in attributes) tag += ` ${key}="${escapeAttribute(attributes[key] ?? '')}"`;
  if (children.length === 0) {
    out.push(tag, '/>');
    return;
  }
  out.push(tag, '>');
  for (const child of children) writeNode(child, out);
  out.push('</', name, '>');
}

function writeNode(node: XmlNode, out: string[]): void {
  if (typeof node === 'string') out.push(escapeText(node));
  else if (node.kind === 'element') writeElement(node, out);
  else out.push(markupText(node));
}

/** An element as text, with nothing added between its children. */
export function serialiseElement(element: XmlElement): string {
  const out: string[] = [];
  writeElement(element, out);
  return out.join('');
}

/** A document as UTF-8 text with an XML declaration; parsing it gives an equal tree. */
export function serialiseXml({ doctype, before, root, after }: XmlDocument): string {
  const out = ['<?xml version="1.0" encoding="UTF-8"?>\n'];
  if (doctype !== null) out.push(`<!DOCTYPE ${doctype}>\n`);
  for (const node of before) out.push(markupText(node), '\n');
  writeElement(root, out);
  for (const node of after) out.push('\n', markupText(node));
  out.push('\n');
  return out.join('');
}
