import type { Issue, WithIssues } from '../../basis/issue.ts';
import { htmlEntities } from './html-entities.ts';

const repaired = (detail: string): Issue => ({
  code: 'value-repaired',
  where: { kind: 'file' },
  severity: 'note',
  detail,
});

interface Repair {
  readonly isNeeded: (text: string) => boolean;
  readonly apply: (text: string) => string;
  readonly detail: string;
}

const xmlNames = new Set(['amp', 'lt', 'gt', 'quot', 'apos']);
const reference = /<!\[CDATA\[[\s\S]*?\]\]>|<!--[\s\S]*?-->|&(?:([A-Za-z][A-Za-z\d]*);|(?!#))/g;

/** What an ampersand and the name after it stand for; null where XML knows it, or nobody does. */
function meaningOf(name: string | undefined): string | null {
  if (name === undefined) return '&amp;';
  return xmlNames.has(name) ? null : (htmlEntities.get(name) ?? null);
}

/** Characters by the names of HTML, and bare ampersands as text. */
const withoutHtmlEntities = (text: string): string =>
  text.replace(reference, (whole, name?: string) => (whole.startsWith('&') ? (meaningOf(name) ?? whole) : whole));

const hasHtmlEntities = (text: string): boolean => text.includes('&') && withoutHtmlEntities(text) !== text;

/** What some systems fill the end of a file with: zeros, or the sign that once ended texts. */
const isPadding = (code: number): boolean => code === 0 || code === 0x1a;

function lengthWithoutPadding(text: string): number {
  let length = text.length;
  while (length > 0 && isPadding(text.charCodeAt(length - 1))) length -= 1;
  return length;
}

const endsInPadding = (text: string): boolean => lengthWithoutPadding(text) < text.length;

const repairs: readonly Repair[] = [
  {
    isNeeded: (text) => /^\s+<\?xml/.test(text),
    apply: (text) => text.trimStart(),
    detail: 'Blank space before the XML declaration was left out.',
  },
  {
    isNeeded: endsInPadding,
    apply: (text) => text.slice(0, lengthWithoutPadding(text)),
    detail: 'Signs that fill up the end of the file were left out.',
  },
  {
    isNeeded: hasHtmlEntities,
    apply: withoutHtmlEntities,
    detail: 'Names of characters that XML does not know, or bare ampersands, were read as the characters meant.',
  },
];

/** A text with what programs often get wrong in XML put right. **Source** XML 1.0, sections 2.4, 2.8 and 4.6. */
export function repairXmlText(text: string): WithIssues<string> {
  const issues: Issue[] = [];
  let value = text;
  for (const { isNeeded, apply, detail } of repairs) {
    if (!isNeeded(value)) continue;
    value = apply(value);
    issues.push(repaired(detail));
  }
  return { value, issues };
}
