import {
  emptySplit,
  type Bar,
  type Excerpt,
  type LengthMode,
  type LineId,
  type Score,
  type Split,
} from '../../../music/index.ts';
import { plainLook, type SheetLook } from '../look.ts';
import { barsOfExcerpt, notesOutside, wholeExcerpt } from '../sheet-place.ts';
import { sheetSource } from '../sheet-source.ts';
import type { SheetSource } from '../strip.ts';
import { writtenSource } from '../written-source.ts';
import { engraveSystems, type EngravedSystems, type OnSystem } from './engraved-systems.ts';
import { papers, systemWidth } from './page-plan.ts';
import { pdfDocument } from './pdf-document.ts';
import { stacked, trimmed } from './picture.ts';
import { pngPicture } from './png-picture.ts';
import { printedPages, type PrintedWords } from './printed-pages.ts';
import { inks } from './shape-inks.ts';
import type { Drawing } from './shape.ts';
import { svgDocument } from './svg-document.ts';
import { TypeOutlines } from './type-outlines.ts';

/** The music that files are engraved from. */
export interface EngravedMusic {
  readonly musicXml: string;
  readonly score: Score;
  readonly split: Split;
}

/** What is engraved: the score as it came, or lines written out. */
export interface EngravedWish {
  readonly of: 'score' | readonly LineId[];
  /** Null for the whole song. */
  readonly excerpt: Excerpt | null;
  readonly lengths: LengthMode;
  readonly marks: 'none' | 'colours' | 'threads';
  /** The line that stands out while the others pale. */
  readonly lifted: LineId | null;
}

/** Bytes with the letters that no face of ours has. */
export interface EngravedFile {
  readonly bytes: Uint8Array;
  readonly missing: string;
}

/** What a picture is laid over. */
export type Ground = 'light' | 'dark';

const outlines = new TypeOutlines();
/** How wide the systems of a picture are set. **Units** pixels. */
const pictureWidth = 1100;

function sourceOf({ musicXml, score, split }: EngravedMusic, wish: EngravedWish): SheetSource {
  const excerpt = wish.excerpt ?? wholeExcerpt(score);
  const source =
    wish.of === 'score' || excerpt === null
      ? sheetSource(musicXml, score)
      : writtenSource({ musicXml, score, split, excerpt, lengths: wish.lengths, withOriginal: false, lines: wish.of });
  if (source === null) throw new Error('There is nothing to write out in these bars.');
  return source;
}

function lookOf({ score, split }: EngravedMusic, wish: EngravedWish): SheetLook {
  const only = wish.of === 'score' ? null : new Set(wish.of);
  const lines = split.lines.map((line) => (only === null || only.has(line.id) ? line : { ...line, isRetired: true }));
  return {
    ...plainLook(wish.marks === 'none' ? emptySplit : { ...split, lines }),
    view: wish.marks === 'threads' ? 'threaded' : 'stacked',
    lifted: new Set(wish.lifted === null || wish.marks === 'none' ? [] : [wish.lifted]),
    outside: wish.of === 'score' ? notesOutside(score, wish.excerpt) : new Set(),
  };
}

function barsOf({ score }: SheetSource, excerpt: Excerpt | null, full: Score): readonly Bar[] {
  const ends = barsOfExcerpt(full, excerpt);
  if (ends === null) return score.bars;
  const first = score.bars.findIndex(({ id }) => id === ends.first);
  const last = score.bars.findIndex(({ id }) => id === ends.last);
  return score.bars.slice(first, last + 1);
}

function engraved(
  music: EngravedMusic,
  wish: EngravedWish,
  set: { readonly ground: 'paper' | Ground; readonly width: number },
  onSystem: OnSystem,
): Promise<EngravedSystems> {
  const source = sourceOf(music, wish);
  const own = { paper: inks.paper, light: inks.overLight, dark: inks.overDark }[set.ground];
  return engraveSystems(
    {
      source,
      bars: barsOf(source, wish.excerpt, music.score),
      look: lookOf(music, wish),
      inks: own,
      isForDark: set.ground === 'dark',
      width: set.width,
    },
    outlines,
    onSystem,
  );
}

/** Pages for print. */
export async function printedFile(
  music: EngravedMusic,
  wish: EngravedWish,
  paper: keyof typeof papers,
  words: PrintedWords,
  onSystem: OnSystem,
): Promise<EngravedFile> {
  const width = systemWidth(papers[paper]);
  const { systems, missing } = await engraved(music, wish, { ground: 'paper', width }, onSystem);
  const printed = await printedPages(systems, papers[paper], words, outlines);
  return {
    bytes: pdfDocument(printed.pages, { title: words.title, author: words.composer }),
    missing: missing + printed.missing,
  };
}

/** A picture with open ground. */
export interface Still {
  readonly drawing: Drawing;
  readonly missing: string;
}

/** The bars as one picture with open ground. */
export async function stillOf(
  music: EngravedMusic,
  wish: EngravedWish,
  ground: Ground,
  onSystem: OnSystem,
): Promise<Still> {
  const { systems, missing } = await engraved(music, wish, { ground, width: pictureWidth }, onSystem);
  return { drawing: trimmed(stacked(systems)), missing };
}

/** A picture as an SVG file. */
export const svgOfStill = ({ drawing }: Still, title: string): Uint8Array =>
  new TextEncoder().encode(svgDocument(drawing, title));

/** A picture as a PNG file. */
export const pngOfStill = ({ drawing }: Still, enlargement: number): Promise<Uint8Array> =>
  pngPicture(drawing, enlargement);
