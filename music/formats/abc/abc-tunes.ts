import { plainText } from './abc-text.ts';
import { tokensOf } from './abc-tokens.ts';

/** One line of an ABC file with its number in the file, from 1. */
export interface AbcLine {
  readonly text: string;
  readonly lineNumber: number;
}

/** One tune of a file: its lines from X: on, the file's own header before them. */
export interface AbcTune {
  /** What X: says; the tune's place in the file, from 1, where it says nothing. */
  readonly number: number;
  readonly title: string;
  readonly lines: readonly AbcLine[];
  /** Where music goes on after an empty line, which by the standard ends the tune; null where it does not. */
  readonly resumedAt: number | null;
}

const unindented = (text: string): string => text.replace(/^[ \t]+(?=[A-Za-z+]:|%)/, '');

/** The lines of a file without their ends, whatever ends them, and without white space before fields. */
const linesOf = (text: string): AbcLine[] =>
  text
    .replace(/^\uFEFF/, '')
    .split(/\r\n|\r|\n/)
    .map((line, index) => ({ text: unindented(line), lineNumber: index + 1 }));

/** Leaves out blocks of text that is set as it is, PostScript and the like, which are no music; what begins one that nothing ends is a line like others. **Source** ABC 2.1, typeset text, from memory. */
function withoutBlocks(lines: readonly AbcLine[]): AbcLine[] {
  const lastEnds = new Map(lines.map(({ text }, index) => [/^%%end(\w+)/.exec(text)?.[1], index]));
  let block: string | null = null;
  return lines.filter(({ text }, index) => {
    const [, named] = /^%%begin(\w+)/.exec(text) ?? [];
    const begun = (lastEnds.get(named) ?? -1) > index ? named : undefined;
    const isEnd = block !== null && text.startsWith(`%%end${block}`);
    const isWithin = block !== null || begun !== undefined;
    if (isEnd) block = null;
    else block ??= begun ?? null;
    return !isWithin;
  });
}

const isTuneStart = ({ text }: AbcLine): boolean => /^X:/.test(text);
const isField = ({ text }: AbcLine): boolean => /^[A-Za-z+]:/.test(text) || text.startsWith('%');
const isEmpty = ({ text }: AbcLine): boolean => text.trim() === '';

/** The header of the file: fields before the first tune. Prose there is no music. */
const fileHeader = (lines: readonly AbcLine[]): AbcLine[] =>
  lines.filter((line) => isField(line) && !/^[XTK]:/.test(line.text));

function tuneOf(header: readonly AbcLine[], lines: readonly AbcLine[], place: number): AbcTune {
  const fieldText = (letter: string): string | undefined =>
    lines
      .find(({ text }) => text.startsWith(`${letter}:`))
      ?.text.slice(2)
      .replace(/(^|[^\\])%.*$/, '$1')
      .trim();
  const number = Number.parseInt(fieldText('X') ?? '', 10);
  const { own, resumedAt } = withoutProse(lines);
  return {
    number: Number.isFinite(number) ? number : place,
    title: plainText(fieldText('T') ?? ''),
    lines: [...header, ...own],
    resumedAt,
  };
}

/** Whether a line of text is music, told by its bar lines and by that all of it is understood. */
function isMusic({ text }: AbcLine): boolean {
  const tokens = tokensOf(text);
  return (
    tokens.some(({ kind }) => kind === 'bar') &&
    tokens.some(({ kind }) => kind === 'note') &&
    tokens.every(({ kind }) => kind !== 'unknown')
  );
}

/** Lines up to an empty one. */
function paragraphsOf(lines: readonly AbcLine[]): AbcLine[][] {
  const paragraphs: AbcLine[][] = [[]];
  for (const line of lines) {
    if (isEmpty(line)) paragraphs.push([]);
    else paragraphs.at(-1)?.push(line);
  }
  return paragraphs.filter(({ length }) => length > 0);
}

/** A tune ends at the first empty line after its key; what follows until the next X: is prose, but for paragraphs that are music. */
function withoutProse(lines: readonly AbcLine[]): { readonly own: AbcLine[]; readonly resumedAt: number | null } {
  const key = lines.findIndex(({ text }) => text.startsWith('K:'));
  const end = lines.findIndex((line, index) => index > key && key >= 0 && isEmpty(line));
  if (end < 0) return { own: [...lines], resumedAt: null };
  const more = paragraphsOf(lines.slice(end)).filter(
    (paragraph) => paragraph.some(isMusic) && paragraph.every((line) => isField(line) || isMusic(line)),
  );
  return { own: [...lines.slice(0, end), ...more.flat()], resumedAt: more[0]?.[0]?.lineNumber ?? null };
}

/** The tunes of an ABC text, in order. A text without X: that has a K: is one tune. **Source** ABC 2.1, file structure, from memory. */
export function tunesOf(text: string): readonly AbcTune[] {
  const lines = withoutBlocks(linesOf(text));
  const starts = lines.flatMap((line, index) => (isTuneStart(line) ? [index] : []));
  const first = starts[0];
  if (first === undefined) {
    const hasKey = lines.some(({ text: line }) => line.startsWith('K:'));
    return hasKey ? [tuneOf([], lines, 1)] : [];
  }
  const header = fileHeader(lines.slice(0, first));
  return starts.map((start, index) => tuneOf(header, lines.slice(start, starts[index + 1]), index + 1));
}
