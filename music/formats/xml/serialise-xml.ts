import { noAttributes, type XmlDocument, type XmlElement, type XmlMarkup, type XmlNode } from './tree.ts';

const textEscapes: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '\r': '&#13;' };
const attributeEscapes: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '"': '&quot;',
  '\t': '&#9;',
  '\n': '&#10;',
  '\r': '&#13;',
};

/** Signs that no document may hold, not even by number: of control, and halves of a pair. **Source** XML 1.0, Char. */
const forbidden = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|\p{Surrogate}/gu;

const escapeText = (text: string): string =>
  /[&<>\r]/.test(text) ? text.replace(/[&<>\r]/g, (sign) => textEscapes[sign] ?? sign) : text;

const escapeAttribute = (text: string): string =>
  /[&<"\t\n\r]/.test(text) ? text.replace(/[&<"\t\n\r]/g, (sign) => attributeEscapes[sign] ?? sign) : text;

function markupText({ kind, text }: XmlMarkup): string {
  if (kind === 'comment') return `<!--${text}-->`;
  if (kind === 'cdata') return `<![CDATA[${text}]]>`;
  return `<?${text}?>`;
}

/** New ids for some elements, which take the place of their own. */
type NewIds = ReadonlyMap<XmlElement, string>;

const noIds: NewIds = new Map();

function startTag({ name, attributes }: XmlElement, id: string | undefined): string {
  let tag = `<${name}`;
  for (const key in attributes) {
    const value = key === 'id' && id !== undefined ? id : (attributes[key] ?? '');
    tag += ` ${key}="${escapeAttribute(value)}"`;
  }
  return id === undefined || 'id' in attributes ? tag : `${tag} id="${escapeAttribute(id)}"`;
}

function elementText(element: XmlElement, ids: NewIds): string {
  const { name, attributes, children } = element;
  const [only] = children;
  if (attributes === noAttributes && children.length === 1 && typeof only === 'string' && !ids.has(element))
    return `<${name}>${escapeText(only)}</${name}>`;
  let text = startTag(element, ids.get(element));
  if (children.length === 0) return `${text}/>`;
  text += '>';
  for (const child of children) text += nodeText(child, ids);
  return `${text}</${name}>`;
}

function nodeText(node: XmlNode, ids: NewIds): string {
  if (typeof node === 'string') return escapeText(node);
  return node.kind === 'element' ? elementText(node, ids) : markupText(node);
}

/** What stands before the root of a document: an XML declaration, the DOCTYPE, comments. */
export function prologText({ doctype, before }: Pick<XmlDocument, 'doctype' | 'before'>): string {
  let text = '<?xml version="1.0" encoding="UTF-8"?>\n';
  if (doctype !== null) text += `<!DOCTYPE ${doctype}>\n`;
  for (const node of before) text += `${markupText(node)}\n`;
  return text;
}

/** A document as UTF-8 text with an XML declaration; parsing it gives an equal tree but for the new ids and for signs that XML cannot hold, which are left out. */
export function serialiseXml(
  { doctype, before, root, after }: Pick<XmlDocument, 'doctype' | 'before' | 'root' | 'after'>,
  ids: NewIds = noIds,
): string {
  let text = prologText({ doctype, before }) + elementText(root, ids);
  for (const node of after) text += `\n${markupText(node)}`;
  return `${text}\n`.replace(forbidden, '');
}
