import { SaxesParser, type SaxesTagPlain } from 'saxes';
import type { Issue, IssueCode } from '../../basis/issue.ts';
import { ok, refused, type Result } from '../../basis/result.ts';
import { fileError } from '../file-issue.ts';
import { limits } from '../limits.ts';
import { longestShared, mostShared, neverShared } from './known-names.ts';
import { parsePlainXml } from './parse-plain-xml.ts';
import { noAttributes, type XmlDocument, type XmlElement, type XmlMarkup, type XmlNode } from './tree.ts';

class Refusal extends Error {
  readonly issue: Issue;
  constructor(issue: Issue) {
    super(issue.detail);
    this.issue = issue;
  }
}

/** The parser itself. As a class of its own it keeps room for all handlers within the object; beyond that room V8 turns the object into a slow dictionary, and parsing takes three times as long. */
class RoomyParser extends SaxesParser {}

interface OpenElement extends Omit<XmlElement, 'children'> {
  children: XmlNode[];
}

/** Stands for no children until there are some: most elements are small, and empty arrays of their own would cost more than they hold. */
const noChildren: XmlNode[] = [];

function addChild(parent: OpenElement, node: XmlNode): void {
  if (parent.children === noChildren) parent.children = [node];
  else parent.children.push(node);
}

/** The attributes as a plain object, which is far smaller than the parser's; only a name that plain objects keep for themselves needs the parser's. */
function plainAttributes(attributes: Record<string, string>): Readonly<Record<string, string>> {
  let plain: Record<string, string> | null = null;
  for (const name in attributes) {
    if (name === '__proto__') return attributes;
    plain ??= {};
    plain[name] = attributes[name] ?? '';
  }
  return plain ?? noAttributes;
}

/** Collects what the parser reports into a tree, and refuses what is too deep, too large or unsafe. */
class TreeBuilder {
  readonly before: XmlMarkup[] = [];
  readonly after: XmlMarkup[] = [];
  root: OpenElement | null = null;
  doctype: string | null = null;
  private readonly open: OpenElement[] = [];
  /** One copy of each short text, such as the white space between elements. */
  private readonly texts = new Map<string, string>();
  private readonly leaves = new Map<string, Map<string, OpenElement>>();
  readonly identified: XmlElement[] = [];
  private readonly parser: SaxesParser;
  private elements = 0;
  private notes = 0;

  constructor(parser: SaxesParser) {
    this.parser = parser;
  }

  refuse(code: IssueCode, detail: string): never {
    const where = { kind: 'text', lineNumber: this.parser.line, column: this.parser.column + 1 } as const;
    throw new Refusal(fileError(code, detail, where));
  }

  openElement(tag: SaxesTagPlain): void {
    const { name, attributes } = tag;
    if (this.open.length >= limits.depth) {
      this.refuse('nesting-too-deep', `Elements stand more than ${limits.depth} deep within each other.`);
    }
    this.count(name);
    const opened: OpenElement = {
      kind: 'element',
      name,
      attributes: plainAttributes(attributes),
      children: noChildren,
      attributesEnd: -1,
    };
    if ('id' in opened.attributes) this.identified.push(opened);
    this.open.push(opened);
  }

  closeElement(): void {
    const closed = this.open.pop();
    if (closed === undefined) return;
    const parent = this.open.at(-1);
    if (parent === undefined) this.root = closed;
    else addChild(parent, this.sharedLeaf(closed));
  }

  /** The one object that stands for all elements of a name without attributes that hold the same short text. */
  private sharedLeaf(closed: OpenElement): OpenElement {
    const text = closed.children.length === 1 ? closed.children[0] : undefined;
    if (typeof text !== 'string' || text.length > longestShared || closed.attributes !== noAttributes) return closed;
    let sameName = this.leaves.get(closed.name);
    if (sameName === undefined) this.leaves.set(closed.name, (sameName = new Map<string, OpenElement>()));
    const known = sameName.get(text);
    if (known !== undefined) return known;
    if (sameName.size < mostShared && !neverShared.has(closed.name)) sameName.set(text, closed);
    return closed;
  }

  text(text: string): void {
    const parent = this.open.at(-1);
    if (parent !== undefined) addChild(parent, text.length > longestShared ? text : this.shared(text));
  }

  private shared(text: string): string {
    const known = this.texts.get(text);
    if (known !== undefined) return known;
    if (this.texts.size < mostShared) this.texts.set(text, text);
    return text;
  }

  markup(kind: XmlMarkup['kind'], text: string): void {
    const node = { kind, text };
    const parent = this.open.at(-1);
    if (parent !== undefined) addChild(parent, node);
    else if (this.root === null) this.before.push(node);
    else this.after.push(node);
  }

  documentType(doctype: string): void {
    const withoutQuotes = doctype.replace(/"[^"]*"|'[^']*'/g, '');
    if (withoutQuotes.includes('[')) {
      this.refuse(
        'document-type-refused',
        'The document type defines things of its own, which is not accepted for safety.',
      );
    }
    this.doctype = doctype.trim();
  }

  private count(name: string): void {
    this.elements += 1;
    if (this.elements > limits.elements) {
      this.refuse('file-too-large', `The file holds more than ${limits.elements.toLocaleString('en')} elements.`);
    }
    if (name !== 'note') return;
    this.notes += 1;
    if (this.notes > limits.notes) {
      this.refuse('too-many-notes', `The file holds more than ${limits.notes.toLocaleString('en')} notes and rests.`);
    }
  }
}

function connect(parser: SaxesParser, builder: TreeBuilder): void {
  parser.on('opentag', (tag) => {
    builder.openElement(tag);
  });
  parser.on('closetag', () => {
    builder.closeElement();
  });
  parser.on('text', (text) => {
    builder.text(text);
  });
  parser.on('cdata', (text) => {
    builder.markup('cdata', text);
  });
  parser.on('comment', (text) => {
    builder.markup('comment', text);
  });
  parser.on('processinginstruction', ({ target, body }) => {
    builder.markup('instruction', body === '' ? target : `${target} ${body}`);
  });
  parser.on('doctype', (doctype) => {
    builder.documentType(doctype);
  });
  parser.on('error', (error) => {
    builder.refuse(
      'markup-broken',
      `This is not well-formed XML: ${error.message.replace(/^\d+:\d+: /, '').replace(/\.$/, '')}.`,
    );
  });
}

/** The tree of an XML text with nothing lost but the order of white space within tags. **Errors** `markup-broken`, `document-type-refused`, `nesting-too-deep`, `file-too-large`, `too-many-notes`. **Source** XML 1.0, fifth edition. */
export function parseXml(text: string): Result<XmlDocument, Issue> {
  const plain = parsePlainXml(text);
  return plain === null ? parseAnyXml(text) : ok(plain);
}

/** The same of any XML, by a library; plain XML is read sooner without it. */
export function parseAnyXml(text: string): Result<XmlDocument, Issue> {
  const parser = new RoomyParser({ position: true });
  const builder = new TreeBuilder(parser);
  connect(parser, builder);
  try {
    parser.write(text).close();
  } catch (error) {
    if (error instanceof Refusal) return refused(error.issue);
    throw error;
  }
  const { root, doctype, before, after, identified } = builder;
  if (root === null) return refused(fileError('markup-broken', 'The file holds no XML element.'));
  return ok({ doctype, before, root, after, identified, written: null });
}
