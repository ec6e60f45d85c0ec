import type { Bar, Score, SoundingNote } from '../../music/index.ts';

/** New names to present ones: notes' heads and bars that alignment found again. */
export interface Renaming {
  readonly heads: ReadonlyMap<string, string>;
  readonly bars: ReadonlyMap<string, string>;
}

interface BarContent {
  readonly bar: Bar;
  readonly notes: readonly SoundingNote[];
  readonly signature: string;
}

const soundOf = (note: SoundingNote): string =>
  note.sound.kind === 'pitched' ? String(note.sound.soundingMidi) : note.sound.hit;

/** Where and what a note is within its bar, exact whatever the resolution of its file. */
function keyOf(note: SoundingNote, bar: Bar, ticksPerQuarter: number): string {
  const part = note.voices[0]?.part ?? '';
  return `${part}|${(note.onsetTicks - bar.onsetTicks) / ticksPerQuarter}|${soundOf(note)}`;
}

function contentsOf(score: Score): BarContent[] {
  const notesOfBar = new Map<string, SoundingNote[]>();
  for (const note of score.notes) notesOfBar.set(note.bar, [...(notesOfBar.get(note.bar) ?? []), note]);
  return score.bars.map((bar) => {
    const notes = notesOfBar.get(bar.id) ?? [];
    const keys = notes.map((note) => keyOf(note, bar, score.ticksPerQuarter)).sort();
    return { bar, notes, signature: `${bar.lengthTicks / score.ticksPerQuarter}:${keys.join(' ')}` };
  });
}

/** Lengths of the longest common subsequences of all ends of two lists. */
function commonLengths(left: readonly BarContent[], right: readonly BarContent[]): Uint16Array[] {
  const table = Array.from({ length: left.length + 1 }, () => new Uint16Array(right.length + 1));
  for (let row = left.length - 1; row >= 0; row -= 1) {
    const here = table[row] as Uint16Array;
    const below = table[row + 1] as Uint16Array;
    for (let column = right.length - 1; column >= 0; column -= 1) {
      const isSame = left[row]?.signature === right[column]?.signature;
      here[column] = isSame
        ? (below[column + 1] as number) + 1
        : Math.max(below[column] as number, here[column + 1] as number);
    }
  }
  return table;
}

type Pair = readonly [BarContent, BarContent];

/** Bars between two that are found again pair up in order: an edited bar stays the same bar. */
function pairGap(left: readonly BarContent[], right: readonly BarContent[]): Pair[] {
  return left.slice(0, right.length).map((content, index): Pair => [content, right[index] as BarContent]);
}

function pairBars(left: readonly BarContent[], right: readonly BarContent[]): Pair[] {
  const table = commonLengths(left, right);
  const pairs: Pair[] = [];
  let row = 0;
  let column = 0;
  let gapRow = 0;
  let gapColumn = 0;
  while (row < left.length && column < right.length) {
    if (left[row]?.signature === right[column]?.signature) {
      pairs.push(...pairGap(left.slice(gapRow, row), right.slice(gapColumn, column)));
      pairs.push([left[row] as BarContent, right[column] as BarContent]);
      row += 1;
      column += 1;
      gapRow = row;
      gapColumn = column;
    } else if ((table[row + 1]?.[column] as number) >= (table[row]?.[column + 1] as number)) row += 1;
    else column += 1;
  }
  return [...pairs, ...pairGap(left.slice(gapRow), right.slice(gapColumn))];
}

/** Gives the heads of a note the names that those of the present one have. */
export function pairHeads(present: SoundingNote, next: SoundingNote, heads: Map<string, string>): void {
  next.heads.forEach((head, index) => {
    const known = present.heads[index];
    if (known !== undefined) heads.set(head, known);
  });
}

function pairNotes([present, next]: Pair, ticks: { present: number; next: number }, heads: Map<string, string>): void {
  const waiting = new Map<string, SoundingNote[]>();
  for (const note of present.notes) {
    const key = keyOf(note, present.bar, ticks.present);
    waiting.set(key, [...(waiting.get(key) ?? []), note]);
  }
  for (const note of next.notes) {
    const found = waiting.get(keyOf(note, next.bar, ticks.next))?.shift();
    if (found !== undefined) pairHeads(found, note, heads);
  }
}

/** Which bars and notes of a new reading are those of the present score: unchanged bars first, then bars between them in order; within a bar, notes of the same part, onset and sound. */
export function alignScores(present: Score, next: Score): Renaming {
  const heads = new Map<string, string>();
  const bars = new Map<string, string>();
  const ticks = { present: present.ticksPerQuarter, next: next.ticksPerQuarter };
  for (const pair of pairBars(contentsOf(present), contentsOf(next))) {
    bars.set(pair[1].bar.id, pair[0].bar.id);
    pairNotes(pair, ticks, heads);
  }
  return { heads, bars };
}

const namedNotes = /(<note\b[^>]*?\sid=")([^"]+)(")/g;
/** A bar's id stands whole in one part, and with the other part's number behind it in every other. */
const namedBars = /(<measure\b[^>]*?\sid=")([^"]+?)((?:-p\d+)?")/g;

/** Normalised MusicXML with the names that alignment found again in the place of new ones. */
export const renamedXml = (xml: string, { heads, bars }: Renaming): string =>
  xml
    .replace(namedNotes, (_, before: string, id: string, after: string) => before + (heads.get(id) ?? id) + after)
    .replace(namedBars, (_, before: string, id: string, after: string) => before + (bars.get(id) ?? id) + after);
