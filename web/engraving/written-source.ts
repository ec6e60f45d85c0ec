import {
  excerptOf,
  fingeringsOf,
  openDocument,
  ticksOfExcerpt,
  writeForPlayers,
  writeWrittenScore,
  writtenHeadId,
  type Bar,
  type Ensemble,
  type Excerpt,
  type HeadId,
  type LengthMode,
  type LineId,
  type NoteId,
  type Score,
  type ScoreDocument,
  type Split,
  type TickRange,
  type WrittenForPlayers,
  type WrittenScore,
  type WrittenStaff,
} from '../../music/index.ts';
import { setUpWords } from '../lib/tuning-words.ts';
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
  /** The lines to write out; all that have notes where none are named. */
  readonly lines?: readonly LineId[];
  /** Who plays; without it each line keeps its own name and clef. */
  readonly ensemble?: Ensemble;
  /** Whether each line shows its strings and frets below its notes. */
  readonly tablature?: boolean;
}

/** A sheet of written-out lines, with a sentence for each thing that is not as the lines have it. */
export interface WrittenSheetSource extends SheetSource {
  readonly losses: readonly string[];
}

const stavesOf = ({ tablature }: WrittenStaff): readonly string[] =>
  tablature === null ? ['notes'] : ['notes', 'strings'];

const staffId = (line: LineId): string => `line-${line}`;

function writtenOut(setting: WrittenSetting): WrittenForPlayers {
  const { score, split, excerpt, lengths, lines, ensemble, tablature } = setting;
  return writeForPlayers(score, split, excerpt, {
    lengths,
    ...(lines === undefined ? {} : { lines }),
    ...(ensemble === undefined ? {} : { ensemble }),
    ...(tablature === true ? { tablature, places: fingeringsOf(score).value } : {}),
  });
}

/** The music of a written-out sheet: a staff for each line, under the original where that is wanted; null where the excerpt is gone from the score or there is no line. */
export function writtenSource(setting: WrittenSetting): WrittenSheetSource | null {
  const { musicXml, score, excerpt, withOriginal } = setting;
  const range = ticksOfExcerpt(score, excerpt);
  if (range === null) return null;
  const { value: written, losses } = writtenOut(setting);
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
    setUp: withOriginal || setting.tablature === true ? setUpWords(score.parts) : '',
    staffCount: (original?.staffCount ?? 0) + written.staves.flatMap(stavesOf).length,
    staffNames: new Map(written.staves.map(({ line, name, letter }) => [staffId(line), { full: name, short: letter }])),
    losses,
  };
}

interface HeadMeaning {
  readonly note: NoteId;
  readonly line: LineId;
}

/** Ids in the order in which heads are written on one kind of staff. */
function idsOn(staff: 'notes' | 'strings'): (source: NoteId) => HeadId {
  const counts = new Map<NoteId, number>();
  return (source) => {
    const count = (counts.get(source) ?? 0) + 1;
    counts.set(source, count);
    return writtenHeadId(source, count, staff);
  };
}

/** What each head stands for, on its staff and again on its strings; a grace note's head stands for its main note. */
function writtenHeads(written: WrittenScore): ReadonlyMap<HeadId, HeadMeaning> {
  const heads = new Map<HeadId, HeadMeaning>();
  const onNotes = idsOn('notes');
  const onStrings = idsOn('strings');
  for (const { line, bars, tablature } of written.staves) {
    for (const event of bars.flat()) {
      for (const head of [...event.graces, ...event.heads]) {
        const note = ('hasSlash' in head ? event.heads[0]?.source : null) ?? head.source;
        heads.set(onNotes(head.source), { note, line });
        if (tablature !== null && head.fingerboard !== null) heads.set(onStrings(head.source), { note, line });
      }
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
