import type { Issue } from '../../basis/issue.ts';
import { ok, refused, type Result } from '../../basis/result.ts';
import { openContainer } from '../container/open-container.ts';
import { fileError } from '../file-issue.ts';
import { decodeText } from '../xml/decode-text.ts';
import { parseXml } from '../xml/parse-xml.ts';
import { childrenOf, type XmlDocument } from '../xml/tree.ts';
import { partwiseOf } from './partwise.ts';

/** The DOCTYPE that a partwise document has in place of a timewise one. */
const partwiseDoctype = (doctype: string | null): string | null =>
  doctype?.replace(/timewise/g, 'partwise').replace(/Timewise/g, 'Partwise') ?? null;

/** The document of a score text, partwise, with at least one part and bar. **Errors** `file-unsupported`, `no-music`, and those of parseXml. */
export function scoreDocumentOf(text: string): Result<XmlDocument, Issue> {
  if (!/^\s*</.test(text))
    return refused(fileError('file-unsupported', 'The file is no MusicXML score: it does not begin with an XML tag.'));
  const parsed = parseXml(text);
  if (!parsed.ok) return parsed;
  const { root, doctype } = parsed.value;
  if (root.name !== 'score-partwise' && root.name !== 'score-timewise') {
    return refused(fileError('file-unsupported', `The file is no MusicXML score: its root element is “${root.name}”.`));
  }
  const document = { ...parsed.value, root: partwiseOf(root), doctype: partwiseDoctype(doctype) };
  const hasBars = childrenOf(document.root, 'part').some((part) => childrenOf(part, 'measure').length > 0);
  return hasBars ? ok(document) : refused(fileError('no-music', 'The score holds no bars.'));
}

/** The document of a score file, packed or not. **Errors** those of openContainer, decodeText and scoreDocumentOf. */
export function openScoreFile(bytes: Uint8Array): Result<XmlDocument, Issue> {
  const content = openContainer(bytes);
  if (!content.ok) return content;
  const text = decodeText(content.value);
  return text.ok ? scoreDocumentOf(text.value) : text;
}
