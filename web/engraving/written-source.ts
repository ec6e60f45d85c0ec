import {
  excerptOf,
  openDocument,
  ticksOfExcerpt,
  writeOut,
  writeWrittenScore,
  writtenHeadId,
  type Bar,
  type Excerpt,
  type HeadId,
  type LengthMode,
  type LineId,
  type NoteId,
  type Score,
  type ScoreDocument,
  type Split,
  type TickRange,
  type WrittenScore,
} from '../../music/index.ts';
import { parsed, sheetSource } from './sheet-source.ts';
import type { SheetSource } from './strip.ts';

/** What is written out and how it is set. */
export interface WrittenSetting {
  readonly musicXml: string;
  readonly score: Score;
  readonly split: Split;
  readonly excerpt: Excerpt;
  readonly lengths: LengthMode;
  /** Whether the score as written stands above, aligned moment by moment. */
  readonly withOriginal: boolean;
  /** The lines to write out; all where none are named. */
  readonly lines?: readonly LineId[];
}

const staffId = (line: LineId): string => `line-${line}`;

/** The music of a written-out sheet: a staff for each line, under the original where that is wanted; null where the excerpt is gone from the score or there is no line. */
export function writtenSource(setting: WrittenSetting): SheetSource | null {
  const { musicXml, score, split, excerpt, lengths, withOriginal, lines } = setting;
  const range = ticksOfExcerpt(score, excerpt);
  if (range === null) return null;
  const written = writeOut(score, split, excerpt, { lengths, ...(lines === undefined ? {} : { lines }) }).value;
  if (written.staves.length === 0) return null;
  const document = openDocument(writeWrittenScore(written));
  const original = withOriginal ? sheetSource(musicXml, score) : null;
  const heads = writtenHeads(written);
  return {
    score: withOriginal ? score : { ...score, bars: trimmedBars(score.bars, range) },
    documentOfBars: (first, last) => {
      const staves = linesDocument(document, written, first, last);
      if (original === null) return staves;
      padFirstBar(staves, range.startTicks - first.onsetTicks);
      return joined(original.documentOfBars(first, last), staves);
    },
    noteOfHead: new Map([
      ...(original?.noteOfHead ?? []),
      ...[...heads].map(([head, { note }]) => [head, note] as const),
    ]),
    lineOfHead: new Map([...heads].map(([head, { line }]) => [head, line])),
    staffOfLine: staffId,
  };
}

function writtenHeads(written: WrittenScore): ReadonlyMap<HeadId, { readonly note: NoteId; readonly line: LineId }> {
  const counts = new Map<NoteId, number>();
  const heads = new Map<HeadId, { note: NoteId; line: LineId }>();
  for (const staff of written.staves) {
    for (const head of staff.bars.flat().flatMap((event) => event.heads)) {
      const count = (counts.get(head.source) ?? 0) + 1;
      counts.set(head.source, count);
      heads.set(writtenHeadId(head.source, count), { note: head.source, line: staff.line });
    }
  }
  return heads;
}

/** Bars cut to the range, so that a sheet without the original counts time from where its first bar begins. */
const trimmedBars = (bars: readonly Bar[], range: TickRange): readonly Bar[] =>
  bars.map((bar) => {
    const start = Math.max(bar.onsetTicks, range.startTicks);
    const end = Math.min(bar.onsetTicks + bar.lengthTicks, range.endTicks);
    return end <= start ? bar : { ...bar, onsetTicks: start, lengthTicks: end - start };
  });

function linesDocument(document: ScoreDocument, written: WrittenScore, first: Bar, last: Bar): Document {
  const lines = parsed(excerptOf(document, { first: first.id, last: last.id }));
  written.staves.forEach((staff, index) => {
    lines.querySelector(`score-part:nth-of-type(${index + 1})`)?.setAttribute('id', staffId(staff.line));
    lines.querySelector(`part:nth-of-type(${index + 1})`)?.setAttribute('id', staffId(staff.line));
  });
  return lines;
}

/** Puts the music of a first bar that begins within its bar at its true place, behind a rest that is not printed. */
function padFirstBar(lines: Document, padTicks: number): void {
  if (padTicks <= 0) return;
  for (const measure of lines.querySelectorAll('part > measure:first-of-type')) {
    const rest = parsed(
      `<note print-object="no"><rest/><duration>${padTicks}</duration><voice>1</voice></note>`,
    ).documentElement;
    const firstInTime = measure.querySelector(':scope > :is(note, backup, forward, direction, harmony, sound)');
    measure.insertBefore(lines.importNode(rest, true), firstInTime);
  }
}

function joined(original: Document, lines: Document): Document {
  const list = original.querySelector('part-list');
  for (const entry of lines.querySelectorAll('score-part')) list?.append(original.importNode(entry, true));
  for (const part of lines.querySelectorAll('score-partwise > part'))
    original.documentElement.append(original.importNode(part, true));
  return original;
}
