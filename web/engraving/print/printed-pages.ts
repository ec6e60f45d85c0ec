import { pageMargin, planPages, type Paper } from './page-plan.ts';
import { placeShape, placeWords, type Drawing } from './shape.ts';
import type { TypeOutlines, TypeStyle } from './type-outlines.ts';
import { nothingSet, together, typeset, type Typeset } from './typeset.ts';

/** What stands around the music. */
export interface PrintedWords {
  readonly title: string;
  /** What the pages are of, below the title: `the lines, written out`, `bars 5–8`. */
  readonly subtitle: string;
  readonly composer: string;
}

/** Pages ready for print, and the letters that no face of ours has. **Units** points. */
export interface PrintedPages {
  readonly pages: readonly Drawing[];
  readonly missing: string;
}

const ink = '#000000';
const titleType: TypeStyle = { family: 'serif', isItalic: false, weight: 500, size: 24 };
const subtitleType: TypeStyle = { family: 'serif', isItalic: true, weight: 500, size: 12 };
const composerType: TypeStyle = { family: 'sans', isItalic: false, weight: 400, size: 11 };
const footType: TypeStyle = { family: 'sans', isItalic: false, weight: 400, size: 9 };

const headHeightOf = ({ subtitle, composer }: PrintedWords): number =>
  36 + (subtitle === '' ? 0 : 16) + (composer === '' ? 0 : 14);

async function headOf(words: PrintedWords, paper: Paper, outlines: TypeOutlines): Promise<Typeset> {
  const room = paper.width - 2 * pageMargin;
  const middle = paper.width / 2;
  const titleY = pageMargin + 20;
  const subtitleY = titleY + 17;
  const composerY = (words.subtitle === '' ? titleY : subtitleY) + 15;
  return together([
    await typeset(words.title, titleType, { x: middle, y: titleY, share: 0.5, room }, ink, outlines),
    await typeset(words.subtitle, subtitleType, { x: middle, y: subtitleY, share: 0.5, room }, ink, outlines),
    await typeset(
      words.composer,
      composerType,
      { x: paper.width - pageMargin, y: composerY, share: 1, room },
      ink,
      outlines,
    ),
  ]);
}

async function footOf(
  title: string,
  number: number,
  count: number,
  paper: Paper,
  outlines: TypeOutlines,
): Promise<Typeset> {
  const y = paper.height - pageMargin;
  const room = (paper.width - 2 * pageMargin) * 0.8;
  const named =
    number === 1 ? nothingSet : await typeset(title, footType, { x: pageMargin, y, share: 0, room }, ink, outlines);
  const counted = `${number} of ${count}`;
  const at = { x: paper.width - pageMargin, y, share: 1, room: 80 } as const;
  return count === 1 ? nothingSet : together([named, await typeset(counted, footType, at, ink, outlines)]);
}

/** Systems on pages, with the title above the first and numbers at the foot. */
export async function printedPages(
  systems: readonly Drawing[],
  paper: Paper,
  words: PrintedWords,
  pointsPerPixel: number,
  outlines: TypeOutlines,
): Promise<PrintedPages> {
  const plan = planPages(
    systems.map(({ height }) => height),
    paper,
    headHeightOf(words),
    pointsPerPixel,
  );
  const pages: Drawing[] = [];
  let missing = '';
  for (const [index, placed] of plan.pages.entries()) {
    const music = placed.map(({ system, top }) => placedOn(systems[system], top, plan.pointsPerPixel));
    const head = index === 0 ? await headOf(words, paper, outlines) : nothingSet;
    const foot = await footOf(words.title, index + 1, plan.pages.length, paper, outlines);
    const page = together([head, ...music, foot]);
    pages.push({ width: paper.width, height: paper.height, shapes: page.shapes, words: page.words });
    missing += page.missing;
  }
  return { pages, missing };
}

function placedOn(system: Drawing | undefined, top: number, scale: number): Typeset {
  if (system === undefined) return nothingSet;
  return {
    shapes: system.shapes.map((shape) => placeShape(shape, pageMargin, top, scale)),
    words: system.words.map((words) => placeWords(words, pageMargin, top, scale)),
    missing: '',
  };
}
