import type { Issue, WithIssues } from '../../basis/issue.ts';
import { ok, refused, type Result } from '../../basis/result.ts';
import { openContainer } from '../container/open-container.ts';
import { fileError } from '../file-issue.ts';
import { decodeRepaired } from '../xml/decode-text.ts';
import { parseXml } from '../xml/parse-xml.ts';
import { repairXmlText } from '../xml/repair-text.ts';
import { childrenOf, elementsOf, isElement, type XmlDocument, type XmlElement } from '../xml/tree.ts';
import { withRepeatsWrittenOut } from './measure-repeats.ts';
import { prefixOfRoot, withoutPrefix } from './namespaces.ts';
import { partwiseOf } from './partwise.ts';

/** The DOCTYPE that a partwise document has in place of a timewise one. */
const partwiseDoctype = (doctype: string | null): string | null =>
  doctype?.replace(/timewise/g, 'partwise').replace(/Timewise/g, 'Partwise') ?? null;

const isScore = ({ name }: XmlElement): boolean => name === 'score-partwise' || name === 'score-timewise';

/** Elements that got an id keep it under their new names. */
function identifiedIn(root: XmlElement, found: XmlElement[] = []): XmlElement[] {
  if ('id' in root.attributes) found.push(root);
  for (const child of elementsOf(root)) identifiedIn(child, found);
  return found;
}

function unprefixed(document: XmlDocument): WithIssues<XmlDocument> {
  const prefix = prefixOfRoot(document.root);
  if (prefix === '') return { value: document, issues: [] };
  const root = withoutPrefix(document.root);
  const detail = `The names of elements begin with “${prefix}”, which was left out: MusicXML has no namespace.`;
  const issue: Issue = { code: 'value-repaired', where: { kind: 'file' }, severity: 'note', detail };
  return { value: { ...document, root, identified: identifiedIn(root) }, issues: [issue] };
}

/** The document of a score text, partwise, with at least one part and bar, and what had to be put right in its text. **Errors** `file-unsupported`, `no-music`, and those of parseXml. */
export function scoreDocumentOf(text: string): Result<WithIssues<XmlDocument>, Issue> {
  if (!/^\s*</.test(text))
    return refused(fileError('file-unsupported', 'The file is no MusicXML score: it does not begin with an XML tag.'));
  const repaired = repairXmlText(text);
  const parsed = parseXml(repaired.value);
  if (!parsed.ok) return parsed;
  const plain = unprefixed(parsed.value);
  const { root, doctype } = plain.value;
  if (!isScore(root)) {
    return refused(fileError('file-unsupported', `The file is no MusicXML score: its root element is “${root.name}”.`));
  }
  const partwise = partwiseOf(root);
  const repeats = withRepeatsWrittenOut(partwise);
  const identified = repeats.value === partwise ? plain.value.identified : identifiedIn(repeats.value);
  const document = { ...plain.value, root: repeats.value, identified, doctype: partwiseDoctype(doctype) };
  const hasBars = childrenOf(document.root, 'part').some((part) =>
    part.children.some((node) => isElement(node, 'measure')),
  );
  if (!hasBars) return refused(fileError('no-music', 'The score holds no bars.'));
  return ok({ value: document, issues: [...repaired.issues, ...plain.issues, ...repeats.issues] });
}

/** The document of a score file, packed or not, and what had to be put right in it. **Errors** those of openContainer, decodeRepaired and scoreDocumentOf. */
export function openScoreFile(bytes: Uint8Array): Result<WithIssues<XmlDocument>, Issue> {
  const content = openContainer(bytes);
  if (!content.ok) return content;
  const text = decodeRepaired(content.value.value);
  if (!text.ok) return text;
  const document = scoreDocumentOf(text.value.value);
  if (!document.ok) return document;
  return ok({
    value: document.value.value,
    issues: [...content.value.issues, ...text.value.issues, ...document.value.issues],
  });
}
