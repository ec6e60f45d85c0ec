import { noteId, type NoteId } from '../../basis/ids.ts';
import type {
  Barre,
  Bend,
  ClefMark,
  HeldOver,
  KeyChange,
  Lyric,
  Marks,
  PrintedWords,
  SwingMark,
  Tuplet,
} from '../../score/marks.ts';
import type { Bar } from '../../score/score.ts';
import { repeatsAfterJump, soundingKey, unmeteredBars } from './bars.ts';
import { firstHead } from './chains.ts';
import type { IssueLog } from './issue-log.ts';
import type { IdOfHead } from './note-table.ts';
import type { PartLayout } from './part-layout.ts';
import { staffKindOf, type RawHead, type RawMoment, type RawPart } from './raw-part.ts';
import { slursOf } from './slurs.ts';
import { tupletsOf } from './tuplets.ts';

type IdOfNote = ReadonlyMap<RawHead, NoteId>;

const byOnset = (a: { readonly onsetTicks: number }, b: { readonly onsetTicks: number }): number =>
  a.onsetTicks - b.onsetTicks;

/** Values at moments with their ticks from the start, in order of time. */
function placed<Row extends RawMoment>(
  rows: readonly Row[],
  bars: readonly Bar[],
): (Omit<Row, 'barIndex' | 'offsetTicks'> & { readonly onsetTicks: number })[] {
  return rows
    .map(({ barIndex, offsetTicks, ...value }) => ({
      onsetTicks: (bars[barIndex]?.onsetTicks ?? 0) + offsetTicks,
      ...value,
    }))
    .sort(byOnset);
}

/** One value of each moment, the first that is told. */
function oneAtATime<Row extends { readonly onsetTicks: number }>(rows: readonly Row[]): Row[] {
  const seen = new Set<number>();
  return rows.filter(({ onsetTicks }) => !seen.has(onsetTicks) && seen.add(onsetTicks));
}

/** Swing that the file says in numbers goes before what words make one assume. */
const swingsOf = (parts: readonly RawPart[], bars: readonly Bar[]): SwingMark[] =>
  oneAtATime(
    placed(
      parts.flatMap(({ swings }) => swings),
      bars,
    ).sort((a, b) => byOnset(a, b) || Number(a.isAssumed) - Number(b.isAssumed)),
  );

/** Says what was assumed where only words ask for swing. */
function reportSwings(part: RawPart, log: IssueLog): void {
  for (const { barIndex, offsetTicks, long, short, unit, isAssumed } of part.swings) {
    if (!isAssumed || long === short) continue;
    const detail = `The words ask for swing and give no ratio; ${long} to ${short} of ${unit} notes was assumed.`;
    log.add('swing-assumed', 'note', detail, { partName: part.name, barIndex, offsetTicks });
  }
}

const wordsOf = (parts: readonly RawPart[], bars: readonly Bar[]): PrintedWords[] =>
  parts
    .flatMap((part) => placed(part.words, bars).map((words): PrintedWords => ({ part: part.id, ...words })))
    .sort(byOnset);

const clefsOf = (parts: readonly RawPart[], bars: readonly Bar[]): ClefMark[] =>
  parts.flatMap((part) => placed(part.clefs, bars).map((clef): ClefMark => ({ part: part.id, ...clef }))).sort(byOnset);

function distinct<Row>(rows: readonly Row[]): Row[] {
  return [...new Map(rows.map((row) => [JSON.stringify(row), row])).values()];
}

const hasAttachments = (layout: PartLayout): boolean =>
  layout.raw.heads.some(({ attachments }) => attachments !== null);

/** Syllables and bends of notes; those of tablature that copies notation stand for the note once. */
function attachedTo(layouts: readonly PartLayout[], ids: IdOfNote): { lyrics: Lyric[]; bends: Bend[] } {
  const lyrics: Lyric[] = [];
  const bends: Bend[] = [];
  for (const { raw } of layouts) {
    for (const head of raw.heads) {
      const note = ids.get(head);
      if (head.attachments === null || note === undefined) continue;
      lyrics.push(...head.attachments.lyrics.map((lyric) => ({ note, ...lyric })));
      bends.push(...head.attachments.bends.map((bend) => ({ note, ...bend })));
    }
  }
  return { lyrics: distinct(lyrics), bends: distinct(bends) };
}

/** Whether a staff only repeats as tablature what another staff of its part writes. */
function isCopy(part: RawPart): (staff: number) => boolean {
  const hasNotation = part.heads.some(({ staff }) => staffKindOf(part, staff) !== 'tablature');
  return (staff) => hasNotation && staffKindOf(part, staff) === 'tablature';
}

/** The heads of notes that another pass holds on, in a later ending or after a jump. */
function heldOversOf(layouts: readonly PartLayout[], bars: readonly Bar[], idOf: IdOfHead): HeldOver[] {
  const chains = layouts.flatMap((layout) => layout.chains.filter(({ held }) => held.length > 0));
  return chains
    .flatMap((chain) =>
      chain.held.flatMap(({ barIndex, onsetTicks, lengthTicks }) => {
        const bar = bars[barIndex];
        return bar === undefined
          ? []
          : [{ note: noteId(idOf(firstHead(chain))), bar: bar.id, onsetTicks, lengthTicks }];
      }),
    )
    .sort(byOnset);
}

/** Changes of the key part within bars, as they sound. */
function keyChangesOf({ raw, part }: PartLayout, bars: readonly Bar[]): KeyChange[] {
  const within = raw.keyChanges.filter(({ barIndex, offsetTicks }) => offsetTicks < (bars[barIndex]?.lengthTicks ?? 0));
  return placed(within, bars).map(({ onsetTicks, key }) => ({ onsetTicks, key: soundingKey(key, part.soundingShift) }));
}

const barresOf = (parts: readonly RawPart[], bars: readonly Bar[]): Barre[] =>
  placed(
    parts.flatMap(({ barres }) => barres),
    bars,
  ).map(({ span, ...barre }) => {
    const endTicks = span.end === null ? null : (bars[span.end.barIndex]?.onsetTicks ?? 0) + span.end.offsetTicks;
    return { endTicks, ...barre };
  });

/** What marks are gathered from. */
interface MarkSources {
  readonly layouts: readonly PartLayout[];
  /** As they sound. */
  readonly bars: readonly Bar[];
  readonly idOf: IdOfHead;
  /** The note of each head; asked for only where something hangs on heads. */
  readonly idsOfAll: () => IdOfNote;
  /** The part whose keys the bars have. */
  readonly keyPart: PartLayout | undefined;
  readonly log: IssueLog;
}

function tupletsOfAll({ layouts, bars, log }: MarkSources): Tuplet[] {
  const sounding = layouts.filter(({ part }) => part.pairedWith === null).map(({ raw }) => raw);
  return sounding
    .flatMap((part) => tupletsOf(part, bars, isCopy(part), log))
    .sort((a, b) => byOnset(a, b) || a.depth - b.depth);
}

/** What is written beside the notes and bars of all parts. */
export function marksOf(sources: MarkSources): Marks {
  const { layouts, bars, idOf, keyPart, log } = sources;
  const parts = layouts.map(({ raw }) => raw);
  for (const part of parts) reportSwings(part, log);
  const ids = layouts.some(hasAttachments) ? sources.idsOfAll() : new Map<RawHead, NoteId>();
  const symbols = parts.flatMap(({ chordSymbols }) => chordSymbols);
  return {
    ...attachedTo(layouts, ids),
    slurs: slursOf(layouts, ids, log),
    chordSymbols: distinct(placed(symbols, bars)),
    words: wordsOf(parts, bars),
    swings: swingsOf(parts, bars),
    tuplets: tupletsOfAll(sources),
    barres: distinct(barresOf(parts, bars)),
    clefs: clefsOf(parts, bars),
    partialCapos: parts.flatMap(({ id, partialCapo }) =>
      partialCapo === null ? [] : [{ part: id, text: partialCapo }],
    ),
    keyChanges: keyPart === undefined ? [] : keyChangesOf(keyPart, bars),
    unmeteredBars: unmeteredBars(parts, bars),
    repeatsAfterJump: repeatsAfterJump(parts, bars),
    heldOvers: heldOversOf(layouts, bars, idOf),
  };
}
