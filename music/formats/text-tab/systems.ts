import { cutAtLabels, cutRun, fewestStrings, mostStrings } from './cut-run.ts';
import { isRule, stringLineOf, type StringLine } from './string-line.ts';
import type { TabLog } from './tab-log.ts';
import { withWideDashes, type TextLine } from './text-line.ts';

/** Lines of strings that stand together, with the lines that touch them. */
export interface RawSystem {
  readonly strings: readonly StringLine[];
  /** Lines before it: those that touch it, and paragraphs since the system before. */
  readonly above: readonly TextLine[];
  readonly below: readonly TextLine[];
  /** Paragraphs between it and the system before, or after the last one. */
  readonly paragraphs: readonly TextLine[];
}

/** A text as its heading and its systems. */
export interface TabText {
  readonly header: readonly TextLine[];
  readonly systems: readonly RawSystem[];
  /** What stands after the last system. */
  readonly footer: readonly TextLine[];
}

type Entry =
  { readonly kind: 'strings'; readonly lines: StringLine[] } | { readonly kind: 'words'; readonly lines: TextLine[] };

/** Whether a line of dashes has neither letter nor bar line and touches one that has: a rule across the page. */
function isRuleBeside(line: TextLine, others: readonly (TextLine | undefined)[]): boolean {
  if (!isRule(line)) return false;
  return others.some((other) => {
    const string = other === undefined ? null : stringLineOf(other);
    return string !== null && (string.label !== null || string.body.includes('|'));
  });
}

function entriesOf(lines: readonly TextLine[]): Entry[] {
  const entries: Entry[] = [];
  for (const [index, line] of lines.entries()) {
    const isApart = isRuleBeside(line, [lines[index - 1], lines[index + 1]]);
    const string = isApart ? null : stringLineOf(line);
    const last = entries.at(-1);
    if (string !== null) {
      if (last?.kind === 'strings') last.lines.push(string);
      else entries.push({ kind: 'strings', lines: [string] });
    } else if (last?.kind === 'words') last.lines.push(line);
    else entries.push({ kind: 'words', lines: [line] });
  }
  return entries;
}

/** How many strings most systems have. */
function usualCount(entries: readonly Entry[]): number {
  const counts = new Map<number, number>();
  for (const { kind, lines } of entries) {
    if (kind !== 'strings') continue;
    for (const { length } of cutAtLabels(lines) ?? [lines])
      if (length >= fewestStrings && length <= mostStrings) counts.set(length, (counts.get(length) ?? 0) + 1);
  }
  return [...counts].sort((a, b) => b[1] - a[1] || b[0] - a[0])[0]?.[0] ?? 0;
}

const widthOf = ({ start, line }: StringLine): number => line.text.length - start;

/** A system in which two dashes are put for each long one, where that makes its lines equally long. */
function withDashesMended(lines: readonly StringLine[]): readonly StringLine[] {
  if (lines.every(({ line }) => line.longDashes.length === 0)) return lines;
  const isEven = (rows: readonly StringLine[]): boolean => new Set(rows.map(widthOf)).size === 1;
  const wide = lines.map((row) => stringLineOf(withWideDashes(row.line)) ?? row);
  return !isEven(lines) && isEven(wide) ? wide : lines;
}

/** Which strings a system has: lines that are too few to be one are words, but for a labelled rest of one. */
function isSystem(lines: readonly StringLine[], count: number): boolean {
  if (lines.length > mostStrings) return false;
  return (
    lines.length >= fewestStrings || (count > 0 && lines.length >= 2 && lines.every(({ label }) => label !== null))
  );
}

interface Builder {
  readonly systems: { strings: readonly StringLine[]; above: TextLine[]; below: TextLine[]; paragraphs: TextLine[] }[];
  header: TextLine[];
  pending: TextLine[];
}

const isBlank = ({ text }: TextLine): boolean => text.trim() === '';

/** Shares the lines between two systems out: what touches the first is below it, what touches the second above it, the rest paragraphs. */
function shareOut(lines: readonly TextLine[]): { below: TextLine[]; paragraphs: TextLine[]; above: TextLine[] } {
  const first = lines.findIndex(isBlank);
  if (first < 0) return { below: [], paragraphs: [], above: [...lines] };
  const last = lines.findLastIndex(isBlank);
  const middle = lines.slice(first, last + 1).filter((line) => !isBlank(line));
  return { below: lines.slice(0, first), paragraphs: middle, above: lines.slice(last + 1) };
}

function addSystem(builder: Builder, strings: readonly StringLine[]): void {
  const { below, paragraphs, above } = shareOut(builder.pending);
  const before = builder.systems.at(-1);
  if (before === undefined) builder.header = [...below, ...paragraphs];
  else before.below.push(...below);
  const kept = before === undefined ? [] : paragraphs;
  builder.systems.push({ strings: withDashesMended(strings), above, below: [], paragraphs: kept });
  builder.pending = [];
}

function endOfText(builder: Builder): TextLine[] {
  const { pending, systems } = builder;
  const first = pending.findIndex(isBlank);
  const touching = first < 0 ? pending : pending.slice(0, first);
  systems.at(-1)?.below.push(...touching);
  return first < 0 ? [] : pending.slice(first).filter((line) => !isBlank(line));
}

/** Finds the systems of a text and which words belong to which. */
export function systemsOf(lines: readonly TextLine[], log: TabLog): TabText {
  const entries = entriesOf(lines);
  const count = usualCount(entries);
  const builder: Builder = { systems: [], header: [], pending: [] };
  for (const entry of entries) {
    if (entry.kind === 'words') builder.pending.push(...entry.lines);
    else
      for (const run of cutRun(entry.lines, count)) {
        if (isSystem(run, count)) addSystem(builder, run);
        else builder.pending.push(...strayLines(run, log));
      }
  }
  if (builder.systems.length === 0)
    return { header: builder.pending.filter((line) => !isBlank(line)), systems: [], footer: [] };
  const footer = endOfText(builder);
  const { header, systems } = builder;
  return { header, systems, footer };
}

function strayLines(run: readonly StringLine[], log: TabLog): TextLine[] {
  return run.map(({ line }) => {
    if (!isRule(line))
      log.add(
        'kept-as-words',
        'warning',
        'A line of tablature stands without the other strings; it was kept as words.',
        line,
      );
    return line;
  });
}
