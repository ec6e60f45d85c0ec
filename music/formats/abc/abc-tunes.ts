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
}

/** The lines of a file without their ends, whatever ends them. */
const linesOf = (text: string): AbcLine[] =>
  text
    .replace(/^\uFEFF/, '')
    .split(/\r\n|\r|\n/)
    .map((line, index) => ({ text: line, lineNumber: index + 1 }));

const isTuneStart = ({ text }: AbcLine): boolean => /^X:/.test(text);
const isField = ({ text }: AbcLine): boolean => /^[A-Za-z+]:/.test(text) || text.startsWith('%');

/** The header of the file: fields before the first tune. Prose there is no music. */
const fileHeader = (lines: readonly AbcLine[]): AbcLine[] =>
  lines.filter((line) => isField(line) && !/^[XTK]:/.test(line.text));

function tuneOf(header: readonly AbcLine[], lines: readonly AbcLine[], place: number): AbcTune {
  const fieldText = (letter: string): string | undefined =>
    lines
      .find(({ text }) => text.startsWith(`${letter}:`))
      ?.text.slice(2)
      .replace(/%.*$/, '')
      .trim();
  const number = Number.parseInt(fieldText('X') ?? '', 10);
  return {
    number: Number.isFinite(number) ? number : place,
    title: fieldText('T') ?? '',
    lines: [...header, ...lines],
  };
}

/** A tune ends at the first empty line after its key; what follows until the next X: is prose. */
function withoutProse(lines: readonly AbcLine[]): AbcLine[] {
  const key = lines.findIndex(({ text }) => text.startsWith('K:'));
  const end = lines.findIndex(({ text }, index) => index > key && key >= 0 && text.trim() === '');
  return lines.slice(0, end < 0 ? lines.length : end);
}

/** The tunes of an ABC text, in order. A text without X: that has a K: is one tune. **Source** ABC 2.1, file structure, from memory. */
export function tunesOf(text: string): readonly AbcTune[] {
  const lines = linesOf(text);
  const starts = lines.flatMap((line, index) => (isTuneStart(line) ? [index] : []));
  const first = starts[0];
  if (first === undefined) {
    const hasKey = lines.some(({ text: line }) => line.startsWith('K:'));
    return hasKey ? [tuneOf([], withoutProse(lines), 1)] : [];
  }
  const header = fileHeader(lines.slice(0, first));
  return starts.map((start, index) => tuneOf(header, withoutProse(lines.slice(start, starts[index + 1])), index + 1));
}
