import { limits } from '../limits.ts';
import { keepLeaf, KnownNames, leafAt, longestShared, type KnownName } from './known-names.ts';
import { noAttributes, type XmlDocument, type XmlElement, type XmlMarkup, type XmlNode } from './tree.ts';

const noChildren: readonly XmlNode[] = [];

const tab = 9;
const lineFeed = 10;
const space = 32;
const exclamation = 33;
const ampersand = 38;
const dash = 45;
const slash = 47;
const lessThan = 60;
const equals = 61;
const greaterThan = 62;

/** Characters that XML forbids or that take more than one place; and blanks before the document. */
const unusual = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ud800-\udfff\ufeff\ufffe\uffff]/;
const declaration =
  /<\?xml version=(["'])1\.0\1(?: encoding=(["'])[A-Za-z][\w.-]*\2)?(?: standalone=(["'])(?:yes|no)\3)? ?\?>/y;
const documentType = /<!DOCTYPE((?:[^[\]"'<>]|"[^"[\]]*"|'[^'[\]]*')*)>/y;
const reference = /&(?:(lt|gt|amp|quot|apos)|#(\d{1,7})|#x([\da-fA-F]{1,6}));/g;
const named: Readonly<Record<string, string>> = { lt: '<', gt: '>', amp: '&', quot: '"', apos: "'" };

/** The letter that a reference by number stands for; null for one that is not plain. */
function letterOf(code: number): string | null {
  return code === 10 || (code >= 32 && code < 0xd800) ? String.fromCharCode(code) : null;
}

/** Text with its references put in place, or null where one is not plain. */
function decoded(text: string): string | null {
  if (!text.includes('&')) return text;
  const pieces: string[] = [];
  let at = 0;
  for (const match of text.matchAll(reference)) {
    const [whole, name, decimal, hexadecimal] = match;
    const code = decimal === undefined ? Number.parseInt(hexadecimal ?? '', 16) : Number(decimal);
    const letter = name === undefined ? letterOf(code) : (named[name] ?? '');
    const before = text.slice(at, match.index);
    if (letter === null || before.includes('&')) return null;
    pieces.push(before, letter);
    at = match.index + whole.length;
  }
  const rest = text.slice(at);
  return rest.includes('&') ? null : [...pieces, rest].join('');
}

interface OpenTag {
  known: KnownName;
  attributes: Readonly<Record<string, string>>;
  attributesEnd: number;
  /** Where its children begin among the nodes that wait. */
  firstNode: number;
}

/** Reads markup from left to right as long as it is plain. */
class PlainReader {
  readonly before: XmlMarkup[] = [];
  readonly after: XmlMarkup[] = [];
  readonly identified: XmlElement[] = [];
  doctype: string | null = null;
  root: XmlElement | null = null;
  private readonly text: string;
  private at = 0;
  private elements = 0;
  private notes = 0;
  /** What is open, by its depth; beyond `depth` lie tags that were closed and whose places are used again. */
  private readonly open: OpenTag[] = [];
  private depth = 0;
  /** The children so far of all that is open; beyond `nodeCount` lies what is done with. An array that is cut shorter would be given back and grown again. */
  private readonly nodes: XmlNode[] = [];
  private nodeCount = 0;
  private readonly names = new KnownNames();
  private readonly attributeNames = new KnownNames();
  /** The short text of each length that came last: nearly all of them are the white space between elements. */
  private readonly lastOfLength: (string | undefined)[] = Array.from({ length: longestShared + 1 }, () => undefined);

  constructor(text: string) {
    this.text = text;
  }

  /** False where something is not plain. */
  read(): boolean {
    const { text } = this;
    declaration.lastIndex = 0;
    if (declaration.test(text)) this.at = declaration.lastIndex;
    while (this.at < text.length) {
      if (text.charCodeAt(this.at) !== lessThan && !this.readText()) return false;
      if (this.at === text.length) break;
      const code = text.charCodeAt(this.at + 1);
      const isRead =
        code === slash ? this.readClosing() : code === exclamation ? this.readDeclared() : this.readOpening();
      if (!isRead) return false;
    }
    return this.root !== null && this.depth === 0;
  }

  private readDocumentType(): boolean {
    if (this.depth > 0 || this.root !== null || this.doctype !== null) return false;
    documentType.lastIndex = this.at;
    const match = documentType.exec(this.text);
    if (match === null) return false;
    this.doctype = (match[1] ?? '').trim();
    this.at = documentType.lastIndex;
    return true;
  }

  private readText(): boolean {
    const next = this.text.indexOf('<', this.at);
    const start = this.at;
    this.at = next < 0 ? this.text.length : next;
    if (this.depth === 0) return this.text.slice(start, this.at).trim() === '';
    const text = this.textBetween(start, this.at);
    if (text !== null) this.put(text);
    return text !== null;
  }

  /** The text of a stretch, short ones as one string each; null where it is not plain. */
  private textBetween(start: number, end: number): string | null {
    const length = end - start;
    if (length > longestShared) return decoded(this.text.slice(start, end));
    const last = this.lastOfLength[length];
    if (last !== undefined && this.text.startsWith(last, start)) return last;
    const raw = this.text.slice(start, end);
    const text = decoded(raw);
    if (text !== raw) return text;
    this.lastOfLength[length] = raw;
    return raw;
  }

  private put(node: XmlNode): void {
    this.nodes[this.nodeCount] = node;
    this.nodeCount += 1;
  }

  /** A comment or the document type. */
  private readDeclared(): boolean {
    return this.text.charCodeAt(this.at + 2) === dash ? this.readComment() : this.readDocumentType();
  }

  private readComment(): boolean {
    const start = this.at + 4;
    const end = this.text.indexOf('--', start);
    if (!this.text.startsWith('<!--', this.at) || end < 0 || this.text.charCodeAt(end + 2) !== greaterThan)
      return false;
    const markup: XmlMarkup = { kind: 'comment', text: this.text.slice(start, end) };
    if (this.depth > 0) this.put(markup);
    else (this.root === null ? this.before : this.after).push(markup);
    this.at = end + 3;
    return true;
  }

  private readClosing(): boolean {
    const opened = this.open[this.depth - 1];
    if (this.depth === 0 || opened === undefined) return false;
    const { name } = opened.known;
    const end = this.at + 2 + name.length;
    if (this.text.charCodeAt(end) !== greaterThan || !this.text.startsWith(name, this.at + 2)) return false;
    this.at = end + 1;
    this.depth -= 1;
    this.close(opened.known, opened.attributes, opened.attributesEnd, opened.firstNode);
    return true;
  }

  private openTag(known: KnownName, attributes: Readonly<Record<string, string>>, attributesEnd: number): void {
    const { nodeCount: firstNode } = this;
    const tag = this.open[this.depth];
    if (tag === undefined) this.open.push({ known, attributes, attributesEnd, firstNode });
    else {
      tag.known = known;
      tag.attributes = attributes;
      tag.attributesEnd = attributesEnd;
      tag.firstNode = firstNode;
    }
    this.depth += 1;
  }

  private close(
    known: KnownName,
    attributes: Readonly<Record<string, string>>,
    attributesEnd: number,
    firstNode: number,
  ): void {
    const children = this.nodeCount === firstNode ? noChildren : this.nodes.slice(firstNode, this.nodeCount);
    this.nodeCount = firstNode;
    const closed: XmlElement = { kind: 'element', name: known.name, attributes, children, attributesEnd };
    const only = children.length === 1 ? children[0] : undefined;
    if (attributes !== noAttributes) {
      if ('id' in attributes) this.identified.push(closed);
    } else if (typeof only === 'string') keepLeaf(known, closed, only);
    if (this.depth === 0) this.root = closed;
    else this.put(closed);
  }

  private readOpening(): boolean {
    const { text } = this;
    if (this.depth === 0 && this.root !== null) return false;
    const known = this.names.at(text, this.at + 1);
    if (known === null || !this.counts(known.name)) return false;
    this.at += 1 + known.name.length;
    return text.charCodeAt(this.at) === greaterThan ? this.readBare(known) : this.readRest(known);
  }

  /** Goes on after the name of a start tag without attributes. An element that has come before with the same text is done at once. */
  private readBare(known: KnownName): boolean {
    const attributesEnd = this.at;
    this.at += 1;
    const leaf = this.depth === 0 ? null : leafAt(known, this.text, this.at);
    if (leaf === null) this.openTag(known, noAttributes, attributesEnd);
    else {
      this.at += leaf.ending.length;
      this.put(leaf.element);
    }
    return true;
  }

  /** Goes on after the name of any other tag that opens. */
  private readRest(known: KnownName): boolean {
    const attributes = this.readAttributes();
    if (attributes === null) return false;
    const attributesEnd = this.at;
    const isEmpty = this.text.charCodeAt(this.at) === slash;
    if (isEmpty) this.at += 1;
    if (this.text.charCodeAt(this.at) !== greaterThan) return false;
    this.at += 1;
    if (isEmpty) this.close(known, attributes, attributesEnd, this.nodeCount);
    else this.openTag(known, attributes, attributesEnd);
    return true;
  }

  private counts(name: string): boolean {
    this.elements += 1;
    if (name === 'note') this.notes += 1;
    return this.elements <= limits.elements && this.notes <= limits.notes && this.depth < limits.depth;
  }

  /** Whether blanks were passed over. */
  private skipBlanks(): boolean {
    const start = this.at;
    let code = this.text.charCodeAt(this.at);
    while (code === space || code === lineFeed || code === tab) code = this.text.charCodeAt((this.at += 1));
    return this.at > start;
  }

  private readAttributes(): Readonly<Record<string, string>> | null {
    const { text } = this;
    let attributes: Record<string, string> | null = null;
    while (this.skipBlanks()) {
      const code = text.charCodeAt(this.at);
      if (code === slash || code === greaterThan) break;
      const known = this.attributeNames.at(text, this.at);
      if (known === null) return null;
      const { name } = known;
      this.at += name.length;
      const value = this.readValue();
      attributes ??= {};
      if (value === null || name === '__proto__' || Object.hasOwn(attributes, name)) return null;
      attributes[name] = value;
    }
    return attributes ?? noAttributes;
  }

  /** The value of an attribute with the sign before it; null where it is not plain. */
  private readValue(): string | null {
    const { text } = this;
    this.skipBlanks();
    if (text.charCodeAt(this.at) !== equals) return null;
    this.at += 1;
    this.skipBlanks();
    const quote = text[this.at];
    const start = this.at + 1;
    const end = quote === '"' || quote === "'" ? text.indexOf(quote, start) : -1;
    if (end < 0) return null;
    for (let at = start; at < end; at += 1) {
      const code = text.charCodeAt(at);
      if (code === lessThan || code === ampersand || code === lineFeed || code === tab) return null;
    }
    this.at = end + 1;
    return text.slice(start, end);
  }
}

/** The tree of an XML text that uses nothing but plain tags, text and comments, as nearly every score does; null for anything else, which is for a reader of all of XML to judge. **Source** XML 1.0, fifth edition. */
export function parsePlainXml(written: string): XmlDocument | null {
  const text = written.includes('\r') ? written.replace(/\r\n?/g, '\n') : written;
  if (unusual.test(text) || text.charCodeAt(0) !== lessThan || text.includes(']]>')) return null;
  const reader = new PlainReader(text);
  if (!reader.read()) return null;
  const { doctype, before, root, after, identified } = reader;
  return root === null ? null : { doctype, before, root, after, identified, written: { text, root } };
}
