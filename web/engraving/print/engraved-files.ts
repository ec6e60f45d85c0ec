import {
  emptySplit,
  type Bar,
  type Ensemble,
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
import { papers, pointsPerPixelFor, systemWidth } from './page-plan.ts';
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

/** The score as it came; all lines, for an ensemble or each in its own name; or one line. */
export type EngravedOf =
  | { readonly kind: 'score' }
  | { readonly kind: 'lines'; readonly ensemble: Ensemble | null }
  | { readonly kind: 'line'; readonly line: LineId };

/** What is engraved: the score as it came, or lines written out. */
export interface EngravedWish {
  readonly of: EngravedOf;
  /** Null for the whole song. */
  readonly excerpt: Excerpt | null;
  readonly lengths: LengthMode;
  readonly marks: 'none' | 'colours' | 'threads';
  /** Whether written-out lines show their strings and frets below their notes. */
  readonly hasTablature: boolean;
  /** The line that stands out while the others pale. */
  readonly lifted: LineId | null;
}

/** What could not be drawn as it is. */
export interface EngravedLosses {
  /** The letters that no face of ours has. */
  readonly missing: string;
  /** A sentence for each thing that written-out lines do not have as it was. */
  readonly losses: readonly string[];
}

/** Bytes with what they do not say. */
export interface EngravedFile extends EngravedLosses {
  readonly bytes: Uint8Array;
}

/** What a picture is laid over. */
export type Ground = 'light' | 'dark';

const outlines = new TypeOutlines();
/** How wide the systems of a picture are set. **Units** pixels. */
const pictureWidth = 1100;

interface WishedSource {
  readonly source: SheetSource;
  readonly losses: readonly string[];
}

function sourceOf(music: EngravedMusic, { of, lengths, hasTablature, ...wish }: EngravedWish): WishedSource {
  const excerpt = wish.excerpt ?? wholeExcerpt(music.score);
  if (of.kind === 'score' || excerpt === null) return { source: sheetSource(music.musicXml, music.score), losses: [] };
  const written = writtenSource({
    ...music,
    excerpt,
    lengths,
    withOriginal: false,
    tablature: hasTablature,
    ...(of.kind === 'line' ? { lines: [of.line] } : {}),
    ...(of.kind === 'lines' && of.ensemble !== null ? { ensemble: of.ensemble } : {}),
  });
  if (written === null) throw new Error('There is nothing to write out in these bars.');
  return { source: written, losses: written.losses };
}

function lookOf({ score, split }: EngravedMusic, { of, marks, lifted, excerpt }: EngravedWish): SheetLook {
  const lines =
    of.kind === 'line'
      ? split.lines.map((line) => (line.id === of.line ? line : { ...line, isRetired: true }))
      : split.lines;
  return {
    ...plainLook(marks === 'none' ? emptySplit : { ...split, lines }),
    view: marks === 'threads' ? 'threaded' : 'stacked',
    lifted: new Set(lifted === null || marks === 'none' ? [] : [lifted]),
    outside: of.kind === 'score' ? notesOutside(score, excerpt) : new Set(),
  };
}

/** Names stand where several staves would else be told apart by nothing but their place. */
const hasNames = ({ of, marks }: EngravedWish, { staffNames }: SheetSource): boolean =>
  staffNames.size > 1 && (of.kind === 'score' || marks === 'none' || (of.kind === 'lines' && of.ensemble !== null));

function barsOf({ score }: SheetSource, excerpt: Excerpt | null, full: Score): readonly Bar[] {
  const ends = barsOfExcerpt(full, excerpt);
  if (ends === null) return score.bars;
  const first = score.bars.findIndex(({ id }) => id === ends.first);
  const last = score.bars.findIndex(({ id }) => id === ends.last);
  return score.bars.slice(first, last + 1);
}

async function engraved(
  music: EngravedMusic,
  wish: EngravedWish,
  source: SheetSource,
  set: { readonly ground: 'paper' | Ground; readonly width: number },
  onSystem: OnSystem,
): Promise<EngravedSystems> {
  const order = {
    source,
    bars: barsOf(source, wish.excerpt, music.score),
    look: lookOf(music, wish),
    hasNames: hasNames(wish, source),
    inks: { paper: inks.paper, light: inks.overLight, dark: inks.overDark }[set.ground],
    isForDark: set.ground === 'dark',
    width: set.width,
  };
  return engraveSystems(order, outlines, onSystem);
}

/** Pages for print. */
export async function printedFile(
  music: EngravedMusic,
  wish: EngravedWish,
  paper: keyof typeof papers,
  words: PrintedWords,
  onSystem: OnSystem,
): Promise<EngravedFile> {
  const { source, losses } = sourceOf(music, wish);
  const pointsPerPixel = pointsPerPixelFor(source.staffCount);
  const width = systemWidth(papers[paper], pointsPerPixel);
  const { systems, missing } = await engraved(music, wish, source, { ground: 'paper', width }, onSystem);
  const printed = await printedPages(systems, papers[paper], words, pointsPerPixel, outlines);
  return {
    bytes: pdfDocument(printed.pages, { title: words.title, author: words.composer }),
    missing: missing + printed.missing,
    losses,
  };
}

/** A picture with open ground. */
export interface Still extends EngravedLosses {
  readonly drawing: Drawing;
}

/** The bars as one picture with open ground. */
export async function stillOf(
  music: EngravedMusic,
  wish: EngravedWish,
  ground: Ground,
  onSystem: OnSystem,
): Promise<Still> {
  const { source, losses } = sourceOf(music, wish);
  const { systems, missing } = await engraved(music, wish, source, { ground, width: pictureWidth }, onSystem);
  return { drawing: trimmed(stacked(systems)), missing, losses };
}

/** A picture as an SVG file. */
export const svgOfStill = ({ drawing }: Still, title: string): Uint8Array =>
  new TextEncoder().encode(svgDocument(drawing, title));

/** A picture as a PNG file. */
export const pngOfStill = ({ drawing }: Still, enlargement: number): Promise<Uint8Array> =>
  pngPicture(drawing, enlargement);
