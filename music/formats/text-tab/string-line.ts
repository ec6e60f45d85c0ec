import type { TextLine } from './text-line.ts';

/** A line of dashes that stands for one string. */
export interface StringLine {
  readonly line: TextLine;
  /** What stands at its left: the letter of its tuning or its number. */
  readonly label: string | null;
  /** Where the body begins in the line. */
  readonly start: number;
  /** Bars, dashes and signs. */
  readonly body: string;
  /** What follows the last bar, as `x2`. */
  readonly tail: string;
}

const labelled = /^(?:(?:low|high|hi|lo) )?([A-Ga-g][#b♯♭]?|[1-8](?=\s?[|:]))?\s{0,4}:?\s{0,4}(?=[-|\d<([*xX/\\=])/i;
/** Signs that may stand on a string. */
const bodySigns = /^[-|:0-9xXhHpPbBrRsStTvVoO/\\~^<>()[\]{}*.=+ ½¼¾,']*$/;
const leastDashes = 3;

/** Words or a number of times, as they follow the last bar; a remark may have an arrow or the like before its words. */
const saysWords = /^\s*\(?(?:x\s?\d|\d+\s?x|[A-Za-z]{3})|^\s+[^\s\dA-Za-z].*[A-Za-z]{3}/i;

/** Where the tail begins: after the last bar, where nothing but words follows. */
function tailStart(body: string): number {
  const last = body.lastIndexOf('|');
  const after = last < 0 ? '' : body.slice(last + 1);
  if (last > 0 && after.trim() !== '' && (!after.includes('-') || saysWords.test(after))) return last + 1;
  const words = /-\s+(?=\(?(?:x\s?\d|\d+\s?x|[A-Za-z]{3}))/.exec(body);
  return last < 0 && words !== null ? words.index + 1 : body.length;
}

/** The line as one string of tablature, or null where it is none. **Source** common practice, no source. */
export function stringLineOf(line: TextLine): StringLine | null {
  const indent = line.text.search(/\S/);
  const match = indent < 0 ? null : labelled.exec(line.text.slice(indent));
  if (match === null) return null;
  const start = indent + match[0].length;
  const all = line.text.slice(start);
  const at = tailStart(all);
  const body = all.slice(0, at).trimEnd();
  const dashCount = body.split('-').length - 1;
  const signs = body.replace(/[\s|]/g, '').length;
  if (dashCount < leastDashes || dashCount * 4 < signs || !isMostlySigns(body, match[1] !== undefined)) return null;
  return { line, label: match[1] ?? null, start, body, tail: all.slice(at).trim() };
}

/** Whether hardly anything in a body is foreign to tablature: a few odd signs are repaired, words are not. More is believed of a line that a letter and a bar begin. */
function isMostlySigns(body: string, hasLabel: boolean): boolean {
  if (bodySigns.test(body)) return !/[A-Za-z]{5}/.test(body);
  const odd = Array.from(body).filter((sign) => !bodySigns.test(sign)).length;
  const most = hasLabel && body.startsWith('|') ? body.length / 3 : body.length / 10;
  return odd <= most && !/[A-Za-z]{4}/.test(body);
}

const codeMark = /^(?:`{3}.{0,12}|\[\/?(?:tab|code|pre)\]|<\/?(?:tab|code|pre)>)$/i;

/** Whether a line is an ornament of dashes or the like without any sense, or a mark by which messages set a text in equal columns. */
export function isRule({ text }: TextLine): boolean {
  const plain = text.trim();
  return /^[-=_*~#+. ]{3,}$/.test(plain) || codeMark.test(plain);
}
