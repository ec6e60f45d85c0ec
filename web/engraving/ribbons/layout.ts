import type { Line, NoteId, Score, TickRange } from '../../../music/index.ts';
import { crossingsOf, type Crossing, type RowRibbon } from './crossings.ts';
import { eyesOf, roomOf, type EyeSpot } from './eye-spots.ts';
import type { NoteLabels } from './note-labels.ts';
import { barAt, barsWithin, rowsOf, within, type Row, type RowBar } from './rows.ts';
import { phrasesOf, runOf, type RibbonScale } from './stroke.ts';
import type { Strand, StrandNote } from './strands.ts';

/** How a ribbon sheet is measured. */
export interface SheetSize {
  readonly widthPixels: number;
  /** `whole` shows the excerpt; `sing` stretches the pitch axis, so that a quarter of a semitone can be seen. */
  readonly stretch: 'whole' | 'sing';
}

/** A hit's cross. */
export interface HitSpot {
  readonly note: NoteId;
  readonly line: Line;
  readonly hit: Strand['hits'][number]['hit'];
  readonly startTicks: number;
  readonly bar: RowBar;
  readonly x: number;
  readonly y: number;
}

/** One row of the sheet. **Units** pixels, y from the row's top. */
export interface SheetRow {
  readonly row: Row;
  readonly topPixels: number;
  readonly heightPixels: number;
  readonly ribbons: readonly RowRibbon[];
  readonly crossings: readonly Crossing[];
  readonly eyes: readonly EyeSpot[];
  readonly hits: readonly HitSpot[];
  /** The dotted threads that hits lie on, by line. */
  readonly hitThreads: readonly { readonly line: Line; readonly y: number }[];
  readonly tags: readonly {
    readonly line: Line;
    readonly y: number;
    readonly threadY: number;
    readonly threadX: number;
  }[];
  readonly xOfTicks: (ticks: number) => number;
}

/** A whole ribbon sheet. */
export interface Sheet {
  readonly widthPixels: number;
  readonly heightPixels: number;
  readonly rows: readonly SheetRow[];
  readonly leftPixels: number;
}

const gutterLeft = 46;
const gutterRight = 12;
const topPixels = 40;
const hitRowPixels = 44;
const wordsRowPixels = 20;
const tagPitch = 38;

/** The names of all notes, where nothing else is wanted. */
const namesOf = (strands: readonly Strand[]): NoteLabels => ({
  kind: 'names',
  texts: new Map(
    strands.flatMap(({ notes, chordNotes }) => [...notes, ...chordNotes].map(({ note, name }) => [note, name])),
  ),
});

/** The pitch axis of a sheet, shared by all its rows. */
interface Axis {
  readonly highest: number;
  readonly pixelsPerSemitone: number;
  readonly clothPixels: number;
  readonly fullHalf: number;
}

function axisOf(strands: readonly Strand[], size: SheetSize): Axis {
  const heights = strands.flatMap((strand) => [...strand.notes, ...strand.chordNotes]).map((note) => note.midi);
  const highest = Math.max(...heights, heights.length === 0 ? 60 : 0);
  const lowest = Math.min(...heights, heights.length === 0 ? 60 : 127);
  const range = Math.max(1, highest - lowest);
  const isNarrow = size.widthPixels < 560;
  const [least, most, wanted] =
    size.stretch === 'sing' ? [11, 22, 220] : [isNarrow ? 5 : 5.6, 13, isNarrow ? 210 : 250];
  const pixelsPerSemitone = Math.min(most, Math.max(least, wanted / range));
  const fullHalf = (isNarrow ? 12 : 14.5) * (size.stretch === 'sing' ? 1.3 : 1);
  return { highest, pixelsPerSemitone, clothPixels: range * pixelsPerSemitone, fullHalf };
}

/** Pixels that a quarter note needs at least, so that most labels have room. */
function quarterPixels(strands: readonly Strand[], ticksPerQuarter: number, labels: NoteLabels): number {
  const needed = strands.flatMap((strand) =>
    strand.notes.slice(1).map((note, index) => {
      const before = strand.notes[index] as StrandNote;
      const room = (roomOf(note, labels) + roomOf(before, labels)) / 2 + 2;
      return (room * ticksPerQuarter) / Math.max(1, note.startTicks - before.startTicks);
    }),
  );
  needed.sort((a, b) => b - a);
  return Math.min(104, Math.max(30, needed[Math.floor(needed.length / 8)] ?? 0));
}

/** The sheet of an excerpt's strands: rows, ribbons, crossings, eyes and hits, all in pixels. */
export function sheetOf(
  score: Pick<Score, 'bars' | 'ticksPerQuarter'>,
  range: TickRange,
  strands: readonly Strand[],
  size: SheetSize,
  labels: NoteLabels = namesOf(strands),
): Sheet {
  const usable = Math.max(160, size.widthPixels - gutterLeft - gutterRight);
  const capacity = (usable / quarterPixels(strands, score.ticksPerQuarter, labels)) * score.ticksPerQuarter;
  const rows = rowsOf(barsWithin(score, range), capacity);
  const longest = Math.max(1, ...rows.map((row) => row.endTicks - row.startTicks));
  const pixelsPerTick = Math.min(usable / longest, 130 / score.ticksPerQuarter);
  const axis = axisOf(strands, size);
  const hasHits = strands.some((strand) => strand.hits.length > 0);
  const heightPixels =
    topPixels +
    2 * axis.fullHalf +
    axis.clothPixels +
    (hasHits ? hitRowPixels : 16) +
    (labels.kind === 'words' ? wordsRowPixels : 0);
  const laid = rows.map((row, index) =>
    layRow(row, strands, {
      axis,
      pixelsPerTick,
      heightPixels,
      topPixels: index * heightPixels,
      score,
      range,
      stretch: size.stretch,
      labels,
    }),
  );
  return {
    widthPixels: size.widthPixels,
    heightPixels: Math.max(1, rows.length) * heightPixels,
    rows: laid,
    leftPixels: gutterLeft,
  };
}

interface RowSetting {
  readonly axis: Axis;
  readonly pixelsPerTick: number;
  readonly heightPixels: number;
  readonly topPixels: number;
  readonly score: Pick<Score, 'ticksPerQuarter'>;
  readonly range: TickRange;
  readonly stretch: SheetSize['stretch'];
  readonly labels: NoteLabels;
}

function layRow(row: Row, strands: readonly Strand[], setting: RowSetting): SheetRow {
  const { axis } = setting;
  const xOfTicks = (ticks: number) => gutterLeft + (ticks - row.startTicks) * setting.pixelsPerTick;
  const yOfMidi = (midi: number) => topPixels + axis.fullHalf + (axis.highest - midi) * axis.pixelsPerSemitone;
  const scale: RibbonScale = {
    startTicks: setting.range.startTicks,
    ticksPerSection: 3 / setting.pixelsPerTick,
    xOfTicks,
    yOfMidi,
    fullHalf: axis.fullHalf,
    ticksPerQuarter: setting.score.ticksPerQuarter,
  };
  const ribbons = [...strands].reverse().map((strand) => ribbonOf(strand, scale, row));
  const hitY = setting.heightPixels - hitRowPixels / 2 - 2;
  const raise = setting.stretch === 'sing' ? -axis.fullHalf - 13 : 0;
  const leftPixels = gutterLeft;
  const eyes = eyesOf(row, strands, { ...setting, fullHalf: axis.fullHalf, leftPixels, raise, xOfTicks, yOfMidi });
  const hitLines = strands.filter((strand) => strand.hits.length > 0).map((strand) => ({ line: strand.line, y: hitY }));
  return {
    row,
    topPixels: setting.topPixels,
    heightPixels: setting.heightPixels,
    ribbons,
    crossings: crossingsOf(ribbons),
    eyes,
    hits: strands.flatMap((strand) => hitsOf(strand, row, xOfTicks, hitY)),
    hitThreads: hitLines,
    tags: tagsOf(strands, row, { xOfTicks, yOfMidi, hitY, heightPixels: setting.heightPixels }),
    xOfTicks,
  };
}

const ribbonOf = (strand: Strand, scale: RibbonScale, row: Row): RowRibbon => ({
  line: strand.line.id,
  runs: phrasesOf(strand.notes).flatMap((phrase) => {
    const touches =
      (phrase[0] as StrandNote).startTicks < row.endTicks && (phrase.at(-1) as StrandNote).endTicks > row.startTicks;
    const run = touches ? runOf(phrase, scale, row) : null;
    return run === null ? [] : [run];
  }),
});

const crossHeight: Readonly<Record<Strand['hits'][number]['hit'], number>> = {
  lowBody: 9,
  deadNote: 0,
  stringSlap: 0,
  highBody: -9,
};

const hitsOf = (strand: Strand, row: Row, xOf: (ticks: number) => number, y: number): readonly HitSpot[] =>
  strand.hits
    .filter((hit) => within(row, hit.startTicks))
    .map((hit) => ({
      note: hit.note,
      line: strand.line,
      hit: hit.hit,
      startTicks: hit.startTicks,
      bar: barAt(row, hit.startTicks),
      x: xOf(hit.startTicks) + 4,
      y: y + crossHeight[hit.hit],
    }));

interface TagSetting {
  readonly xOfTicks: (ticks: number) => number;
  readonly yOfMidi: (midi: number) => number;
  readonly hitY: number;
  readonly heightPixels: number;
}

/** Each line's tag at the row's left edge, near where its ribbon begins, never on another tag. */
function tagsOf(strands: readonly Strand[], row: Row, setting: TagSetting): SheetRow['tags'] {
  const wanted = strands.flatMap((strand) => {
    const note = strand.notes.find(
      ({ endTicks, startTicks }) => endTicks > row.startTicks && startTicks < row.endTicks,
    );
    if (note !== undefined) {
      const threadX = setting.xOfTicks(Math.max(note.startTicks, row.startTicks));
      return [{ line: strand.line, threadY: setting.yOfMidi(note.midi), threadX }];
    }
    const hit = strand.hits.find(({ startTicks }) => within(row, startTicks));
    return hit === undefined ? [] : [{ line: strand.line, threadY: setting.hitY, threadX: gutterLeft }];
  });
  const sorted = [...wanted].sort((a, b) => a.threadY - b.threadY);
  const ys = spread(
    sorted.map(({ threadY }) => threadY),
    tagPitch,
    setting.heightPixels - 20,
  );
  return sorted.map((tag, index) => ({ ...tag, y: ys[index] as number }));
}

/** Ascending places moved apart by `pitch` at least, none beyond `most` as long as there is room. */
export function spread(wanted: readonly number[], pitch: number, most: number): readonly number[] {
  const places: number[] = [];
  for (const place of wanted) places.push(Math.max(place, (places.at(-1) ?? -Infinity) + pitch));
  for (let index = places.length - 1; index >= 0; index -= 1) {
    const ceiling = index === places.length - 1 ? most : (places[index + 1] as number) - pitch;
    places[index] = Math.min(places[index] as number, ceiling);
  }
  return places;
}

/** The row that a moment lies in; the last row for the excerpt's very end; null outside. */
export function rowAt(sheet: Pick<Sheet, 'rows'>, ticks: number): SheetRow | null {
  const inside = sheet.rows.find(({ row }) => within(row, ticks));
  const last = sheet.rows.at(-1);
  return inside ?? (last?.row.endTicks === ticks ? last : null);
}
