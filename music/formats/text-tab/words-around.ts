import { isChordSymbol } from './chord-symbols.ts';
import type { TextLine } from './text-line.ts';

/** A word and its column. */
export interface PlacedText {
  readonly column: number;
  readonly text: string;
}

/** A run of signs without a space in it, with its column. */
export function wordsOf({ text }: TextLine): PlacedText[] {
  return [...text.matchAll(/\S+/g)].map((match) => ({ column: match.index, text: match[0] }));
}

const isFiller = (text: string): boolean => /^[|/%.-]+$/.test(text);

/** A word without the bars and brackets around it. */
function bare({ column, text }: PlacedText): PlacedText {
  const open = /^[|(]+/.exec(text)?.[0].length ?? 0;
  const inner = text.slice(open).replace(/\|+$/, '');
  return { column: column + open, text: inner.includes('(') ? inner : inner.replace(/\)$/, '') };
}

const remark = /(?<=^|\s)\([^()]*\)(?=\s|$)/g;
const isRemark = (text: string): boolean => !isChordSymbol(text.slice(1, -1));

/** What stands in brackets between chord symbols and is none itself. */
export const remarksOf = ({ text }: TextLine): PlacedText[] =>
  [...text.matchAll(remark)]
    .filter(([found]) => isRemark(found))
    .map((match) => ({ column: match.index, text: match[0] }));

/** The chord symbols of a line that holds nothing else but remarks in brackets, or null. */
export function chordsOf(line: TextLine): PlacedText[] | null {
  const text = line.text.replace(remark, (found) => (isRemark(found) ? ' '.repeat(found.length) : found));
  const words = wordsOf({ ...line, text })
    .map(bare)
    .filter((word) => word.text !== '' && !isFiller(word.text));
  return words.length > 0 && words.every((word) => isChordSymbol(word.text)) ? words : null;
}

/** Sections as people name them. **Source** common practice, no source. */
const sectionNames =
  /^(?:intro(?:duction)?|verse|pre-?\s?chorus|chorus|refrain|bridge|solo|interlude|outro|ending|riff|hook|break|part|section|theme|fill|tag)(?:\s*(?:\d{1,2}|[a-z]|[ivx]{1,4}))?\s*(?:\(.*\))?\s*:?$/i;

/** The section that a line names: in brackets, or by a usual name alone. */
export function sectionOf({ text }: TextLine): { readonly name: string; readonly rest: string } | null {
  const bracketed = /^\s*\[([^\]]+)\]\s*(.*)$/.exec(text);
  if (bracketed !== null) return { name: (bracketed[1] ?? '').trim(), rest: (bracketed[2] ?? '').trim() };
  const plain = text.trim();
  return sectionNames.test(plain) ? { name: plain.replace(/\s*:$/, ''), rest: '' } : null;
}

/** A stretch of columns over which something holds. */
export interface Span {
  readonly from: number;
  readonly to: number;
  readonly kind: 'palmMute' | 'letRing';
}

const spanPattern =
  /(p\.?\s?m\.?(?![a-z])|palm mut(?:e|ed|ing)|let ring|l\.r\.|\bring\b)[\s.]*((?:[-_.~=]\s?)*)(\||-\|)?/gi;

/** The stretches of palm mute and let ring of a line that holds nothing else, or null. */
export function spansOf({ text }: TextLine): Span[] | null {
  const spans = [...text.matchAll(spanPattern)].map((match): Span => {
    const kind = /ring|l\.r/i.test(match[1] ?? '') ? 'letRing' : 'palmMute';
    return { kind, from: match.index, to: match.index + match[0].trimEnd().length - 1 };
  });
  return spans.length > 0 && /^[\s|.-]*$/.test(text.replace(spanPattern, '')) ? spans : null;
}

/** How many times, as `x3`, `(x3)`, `3x`, `play 3 times`; null where a text says no such thing. */
export function timesOf(text: string): number | null {
  const match = /^\(?\s*(?:play\s+|repeat\s+)?(?:[x×]\s?(\d{1,2})|(\d{1,2})\s?(?:[x×]|times))\s*\)?\.?$/i.exec(
    text.trim(),
  );
  const times = Number(match?.[1] ?? match?.[2]);
  return times >= 1 && times <= 64 ? times : null;
}
