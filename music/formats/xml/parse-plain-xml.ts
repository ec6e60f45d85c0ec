import { limits } from '../limits.ts';
import { noAttributes, type XmlDocument, type XmlElement, type XmlMarkup, type XmlNode } from './tree.ts';

const noChildren: readonly XmlNode[] = [];
const longestShared = 24;
const mostShared = 2000;
/** Elements that excerpts change one by one. */
const neverShared = new Set(['beam']);

const lessThan = 60;
const slash = 47;
const greaterThan = 62;
const exclamation = 33;
const question = 63;

/** By character code: 1 where a name may begin, 3 where one may go on, among the plain letters. **Source** XML 1.0, fifth edition, names. */
const nameParts = new Uint8Array(128);
for (const letter of 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz_:') nameParts[letter.charCodeAt(0)] = 3;
for (const letter of '0123456789.-') nameParts[letter.charCodeAt(0)] = 2;

/** Characters that XML forbids or that take more than one place; and blanks before the document. */
const unusual = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ud800-\udfff\ufeff\ufffe\uffff]/;
const declaration =
  /<\?xml version=(["'])1\.0\1(?: encoding=(["'])[A-Za-z][\w.-]*\2)?(?: standalone=(["'])(?:yes|no)\3)? ?\?>/y;
const documentType = /<!DOCTYPE((?:[^[\]"'<>]|"[^"[\]]*"|'[^'[\]]*')*)>/y;
const attribute = /[ \n\t]+([A-Za-z_:][\w:.-]*)[ \n]*=[ \n]*(?:"([^"<&\n\t]*)"|'([^'<&\n\t]*)')/y;
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

/** A name with the elements that stand for all of their text, by that text. */
interface KnownName {
  readonly name: string;
  readonly leaves: Map<string, XmlElement>;
}

interface OpenTag {
  readonly known: KnownName;
  readonly attributes: Readonly<Record<string, string>>;
  readonly lineNumber: number;
  readonly column: number;
  /** Where its children begin among the nodes that wait. */
  readonly firstNode: number;
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
  private lineNumber = 1;
  private lineStart = 0;
  private elements = 0;
  private notes = 0;
  private readonly open: OpenTag[] = [];
  /** The children so far of all that is open; beyond `nodeCount` lies what is done with. An array that is cut shorter would be given back and grown again. */
  private readonly nodes: XmlNode[] = [];
  private nodeCount = 0;
  private readonly names = new Map<string, KnownName>();
  private readonly texts = new Map<string, string>();

  constructor(text: string) {
    this.text = text;
  }

  /** False where something is not plain. */
  read(): boolean {
    if (!this.readProlog()) return false;
    while (this.at < this.text.length) {
      const next = this.text.indexOf('<', this.at);
      const end = next < 0 ? this.text.length : next;
      if (end > this.at && !this.readText(end)) return false;
      if (next < 0) break;
      this.at = next;
      const code = this.text.charCodeAt(next + 1);
      const isRead =
        code === slash
          ? this.readClosing()
          : code === exclamation || code === question
            ? this.readComment()
            : this.readOpening();
      if (!isRead) return false;
    }
    return this.root !== null && this.open.length === 0;
  }

  private readProlog(): boolean {
    declaration.lastIndex = 0;
    if (declaration.test(this.text)) this.at = declaration.lastIndex;
    const tag = /<[^!?]/g.exec(this.text);
    const typeAt = this.text.indexOf('<!DOCTYPE');
    if (typeAt < 0 || tag === null || typeAt > tag.index) return true;
    const between = this.text.slice(this.at, typeAt);
    documentType.lastIndex = typeAt;
    const match = documentType.exec(this.text);
    if (match === null || between.trim() !== '') return false;
    this.doctype = (match[1] ?? '').trim();
    this.goTo(documentType.lastIndex);
    return true;
  }

  /** Goes on to a place and counts the ends of lines on the way. */
  private goTo(end: number, passed = this.text.slice(this.at, end)): void {
    for (let line = passed.indexOf('\n'); line >= 0; line = passed.indexOf('\n', line + 1)) {
      this.lineNumber += 1;
      this.lineStart = this.at + line + 1;
    }
    this.at = end;
  }

  private readText(end: number): boolean {
    const raw = this.text.slice(this.at, end);
    if (this.open.length === 0) {
      if (raw.trim() !== '') return false;
    } else {
      if (raw.includes(']]>')) return false;
      const text = decoded(raw);
      if (text === null) return false;
      this.put(text.length > longestShared ? text : this.shared(text));
    }
    this.goTo(end, raw);
    return true;
  }

  private put(node: XmlNode): void {
    this.nodes[this.nodeCount] = node;
    this.nodeCount += 1;
  }

  private shared(text: string): string {
    const known = this.texts.get(text);
    if (known !== undefined) return known;
    if (this.texts.size < mostShared) this.texts.set(text, text);
    return text;
  }

  private readComment(): boolean {
    const start = this.at + 4;
    const end = this.text.indexOf('--', start);
    if (!this.text.startsWith('<!--', this.at) || end < 0 || this.text.charCodeAt(end + 2) !== greaterThan)
      return false;
    const markup: XmlMarkup = { kind: 'comment', text: this.text.slice(start, end) };
    if (this.open.length > 0) this.put(markup);
    else (this.root === null ? this.before : this.after).push(markup);
    this.goTo(end + 3);
    return true;
  }

  /** The name that begins at a place, or null. */
  private nameAt(start: number): KnownName | null {
    const { text } = this;
    let end = start;
    if (((nameParts[text.charCodeAt(end)] ?? 0) & 1) === 0) return null;
    while ((nameParts[text.charCodeAt(end)] ?? 0) !== 0) end += 1;
    const name = text.slice(start, end);
    const known = this.names.get(name);
    if (known !== undefined) return known;
    const fresh: KnownName = { name, leaves: new Map() };
    this.names.set(name, fresh);
    return fresh;
  }

  private readClosing(): boolean {
    const opened = this.open.pop();
    if (opened === undefined) return false;
    const { name } = opened.known;
    const end = this.at + 2 + name.length;
    if (!this.text.startsWith(name, this.at + 2) || this.text.charCodeAt(end) !== greaterThan) return false;
    this.at = end + 1;
    this.close(opened);
    return true;
  }

  private close({ known, attributes, lineNumber, column, firstNode }: OpenTag): void {
    const children = this.nodeCount === firstNode ? noChildren : this.nodes.slice(firstNode, this.nodeCount);
    this.nodeCount = firstNode;
    const only = children.length === 1 ? children[0] : undefined;
    const { name, leaves } = known;
    const isLeaf = typeof only === 'string' && only.length <= longestShared && attributes === noAttributes;
    const earlier = isLeaf ? leaves.get(only) : undefined;
    const closed: XmlElement = earlier ?? { kind: 'element', name, attributes, children, lineNumber, column };
    if (isLeaf && earlier === undefined && leaves.size < mostShared && !neverShared.has(name)) leaves.set(only, closed);
    if (attributes !== noAttributes && 'id' in attributes) this.identified.push(closed);
    if (this.open.length === 0) this.root = closed;
    else this.put(closed);
  }

  /** Whether the element that was just opened is one that has come before with the same text; then it is done. */
  private isKnownLeaf({ name, leaves }: KnownName): boolean {
    const { text, at } = this;
    const end = text.indexOf('<', at);
    if (text.charCodeAt(end + 1) !== slash || this.open.length === 0) return false;
    const raw = text.slice(at, end);
    const leaf = raw.includes('&') ? undefined : leaves.get(raw);
    const after = end + 2 + name.length;
    if (leaf === undefined || text.charCodeAt(after) !== greaterThan || !text.startsWith(name, end + 2)) return false;
    this.goTo(after + 1, raw);
    this.put(leaf);
    return true;
  }

  private readOpening(): boolean {
    if (this.open.length === 0 && this.root !== null) return false;
    const { at: start, lineNumber } = this;
    const column = start - this.lineStart + 1;
    const known = this.nameAt(start + 1);
    if (known === null || !this.counts(known.name)) return false;
    this.at = start + 1 + known.name.length;
    const isBare = this.text.charCodeAt(this.at) === greaterThan;
    const attributes = isBare ? noAttributes : this.readAttributes();
    if (attributes === null) return false;
    const isEmpty = this.text.charCodeAt(this.at) === slash;
    if (isEmpty) this.at += 1;
    if (this.text.charCodeAt(this.at) !== greaterThan) return false;
    this.at += 1;
    if (isBare && this.isKnownLeaf(known)) return true;
    const opened = { known, attributes, lineNumber, column, firstNode: this.nodeCount };
    if (isEmpty) this.close(opened);
    else this.open.push(opened);
    return true;
  }

  private counts(name: string): boolean {
    this.elements += 1;
    if (name === 'note') this.notes += 1;
    return this.elements <= limits.elements && this.notes <= limits.notes && this.open.length < limits.depth;
  }

  private readAttributes(): Readonly<Record<string, string>> | null {
    const { text } = this;
    let attributes: Record<string, string> | null = null;
    attribute.lastIndex = this.at;
    for (let match = attribute.exec(text); match !== null; match = attribute.exec(text)) {
      const [whole, name = '', double, single] = match;
      attributes ??= {};
      if (name === '__proto__' || Object.hasOwn(attributes, name)) return null;
      attributes[name] = double ?? single ?? '';
      this.goTo(this.at + whole.length, whole);
    }
    while (text.charCodeAt(this.at) === 32) this.at += 1;
    return attributes ?? noAttributes;
  }
}

/** The tree of an XML text that uses nothing but plain tags, text and comments, as nearly every score does; null for anything else, which is for a reader of all of XML to judge. **Source** XML 1.0, fifth edition. */
export function parsePlainXml(written: string): XmlDocument | null {
  const text = written.includes('\r') ? written.replace(/\r\n?/g, '\n') : written;
  if (unusual.test(text) || text.charCodeAt(0) !== lessThan) return null;
  const reader = new PlainReader(text);
  if (!reader.read()) return null;
  const { doctype, before, root, after, identified } = reader;
  return root === null ? null : { doctype, before, root, after, identified };
}
