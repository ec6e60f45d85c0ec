import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  excerptOfBars,
  fourVoices,
  readScoreFile,
  stringQuartet,
  writeForPlayers,
  type Excerpt,
  type LineId,
} from '../../music/index.ts';
import { demoPieces } from '../../seed/demo-pieces.ts';
import type { EngravedWish } from '../../web/engraving/print/engraved-files.ts';
import { launchBrowser } from '../support/browser.ts';
import { openEngravingPage } from '../support/engraving-page.ts';
import { filledOutlines, fromFirst, readPdf, wordsOn, type Outline, type ReadPdf } from '../support/pdf-reader.ts';
import type { SentMusic, WithPrint } from '../support/print-page.ts';
import { splitByVoice } from '../support/split-by-voice.ts';

let browser: Browser;
let page: Page;
beforeAll(async () => {
  browser = await launchBrowser();
  page = await openEngravingPage(browser, './print-page.ts', 'drawInPage');
});
afterAll(async () => {
  await browser.close();
});

const [demo] = demoPieces();
const source = { fileName: demo!.fileName, firstNoteNumber: 1, firstBarNumber: 1 };
const read = readScoreFile(new TextEncoder().encode(demo!.musicXml), source);
if (!read.ok) throw new Error(`${demo!.fileName} cannot be read`);
const { score, normalisedXml } = read.value;
const split = splitByVoice(score);
const sent: SentMusic = { normalisedXml, lines: split.lines, marks: [...split.marks] };
/** Enough for two pages, hits and a change of key among it. */
const excerpt: Excerpt = excerptOfBars(score, score.bars[0]!.id, score.bars[28]!.id)!;

const plain: Omit<EngravedWish, 'of'> = { excerpt, lengths: 'next', marks: 'none', lifted: null, hasTablature: false };

async function printed(wish: EngravedWish, paper: 'a4' | 'letter'): Promise<ReadPdf & { losses: readonly string[] }> {
  const { base64, losses } = await page.evaluate(
    ([music, asked, on]) => (globalThis as unknown as WithPrint).printInPage(music, asked, on),
    [sent, wish, paper] as const,
  );
  return { ...readPdf(Buffer.from(base64, 'base64')), losses };
}

const drawn = (wish: EngravedWish): Promise<string> =>
  page.evaluate(([music, asked]) => (globalThis as unknown as WithPrint).drawInPage(music, asked), [
    sent,
    wish,
  ] as const);

interface SvgHead {
  readonly note: string;
  readonly lines: string;
  readonly fill: string;
  readonly outline: Outline;
}

const svgHeads = (svg: string): readonly SvgHead[] =>
  [...svg.matchAll(/<path d="([^"]*)" fill="([^"]*)"[^>]* class="head" data-note="([^"]*)" data-lines="([^"]*)"/g)].map(
    ([, data = '', fill = '', note = '', lines = '']) => ({
      ...{ note, lines, fill },
      outline: fromFirst((data.match(/-?\d+(?:\.\d+)?/g) ?? []).map(Number)),
    }),
  );

/** An outline at a size of its own. */
function unsized(outline: Outline): Outline {
  const size = Math.max(...outline.map(Math.abs));
  return outline.map((value) => value / size);
}

const isLike = (one: Outline, other: Outline): boolean =>
  one.length === other.length && one.every((value, index) => Math.abs(value - (other[index] ?? 0)) < 0.02);

/** How many outlines of the pages have the shape of one of these heads. */
function headsOn(pdf: ReadPdf, heads: readonly SvgHead[]): number {
  const shapes: Outline[] = [];
  for (const { outline } of heads) {
    const shape = unsized(outline);
    if (!shapes.some((known) => isLike(known, shape))) shapes.push(shape);
  }
  const outlines = pdf.pages.flatMap(filledOutlines).map(unsized);
  return outlines.filter((outline) => shapes.some((shape) => isLike(shape, outline))).length;
}

/** How many upright lines of a drawing reach over the room between two staves. */
function joinedLines(svg: string): number {
  const outlines = [...svg.matchAll(/<path d="([^"]*)"/g)].map(([, data = '']) => {
    const values = (data.match(/-?\d+(?:\.\d+)?/g) ?? []).map(Number);
    const span = (parity: number): number => {
      const own = values.filter((_, index) => index % 2 === parity);
      return Math.max(...own) - Math.min(...own);
    };
    return { width: span(0), height: span(1) };
  });
  return outlines.filter(({ width, height }) => width <= 6 && height > 60).length;
}

describe('staves of an ensemble', () => {
  it('share their bar lines where instruments play, and do not where voices sing', async () => {
    const few = { ...plain, excerpt: excerptOfBars(score, score.bars[1]!.id, score.bars[8]!.id)! };
    const quartet = joinedLines(await drawn({ ...few, of: { kind: 'lines', ensemble: stringQuartet } }));
    const voices = joinedLines(await drawn({ ...few, of: { kind: 'lines', ensemble: fourVoices } }));
    const staffCount = writeForPlayers(score, split, few.excerpt, { lengths: 'next' }).value.staves.length;
    expect(quartet - voices).toBeGreaterThanOrEqual(8 * (staffCount - 1));
  });
});

describe('pages to print', () => {
  it.each([
    ['a4', [595.28, 841.89], 'the lines for a string quartet', { kind: 'lines', ensemble: stringQuartet }, 'Violin I'],
    ['letter', [612, 792], 'the lines for four voices', { kind: 'lines', ensemble: fourVoices }, 'Soprano'],
    ['a4', [595.28, 841.89], 'all lines', { kind: 'lines', ensemble: null }, split.lines[0]!.name],
  ] as const)(
    'on %s (%j points), %s: every head, and the names before the staves',
    async (paper, size, _, of, name) => {
      const wish: EngravedWish = { ...plain, of };
      const pdf = await printed(wish, paper);
      const options = { lengths: plain.lengths, ...(of.ensemble === null ? {} : { ensemble: of.ensemble }) };
      const { value, losses } = writeForPlayers(score, split, excerpt, options);
      const heads = value.staves
        .flatMap(({ bars }) => bars.flat())
        .flatMap((event) => [...event.graces, ...event.heads]);
      const inPicture = svgHeads(await drawn(wish));
      expect(inPicture).toHaveLength(heads.length);
      expect(headsOn(pdf, inPicture)).toBe(heads.length);
      expect(pdf.pages).toHaveLength(2);
      for (const { mediaBox } of pdf.pages)
        expect(mediaBox.slice(2).map((side) => Math.round(side * 100) / 100)).toEqual(size);
      expect(wordsOn(pdf.pages[0]!)).toContain(name);
      expect(pdf.pages.map((one) => wordsOn(one).find((words) => words.endsWith(' of 2')))).toEqual([
        '1 of 2',
        '2 of 2',
      ]);
      expect(pdf.losses).toEqual(losses);
    },
  );

  it('show the strings of a line below its notes, each number once', async () => {
    const line = split.lines.find(({ role }) => role !== 'percussion')!.id;
    const of = { kind: 'line', line } as const;
    const svg = await drawn({ ...plain, of, hasTablature: true });
    const numbers = [...svg.matchAll(/class="digit" data-note="([^"]*)"/g)].map(([, note]) => note);
    expect(new Set(numbers)).toEqual(new Set(svgHeads(svg).map(({ note }) => note)));
    expect(numbers.length).toBeGreaterThan(20);
  });
});

describe('stills', () => {
  it('lie on an open ground and name the lines of each head, in the lines’ colours', async () => {
    const svg = await drawn({ ...plain, marks: 'colours', of: { kind: 'score' } });
    const [, width = 0, height = 0] = (/viewBox="0 0 (\S+) (\S+)"/.exec(svg) ?? []).map(Number);
    expect(svg).not.toMatch(/<rect|<image|background/);
    for (const [, data = ''] of svg.matchAll(/ d="([^"]*)" fill="#/g)) {
      const numbers = (data.match(/-?\d+(?:\.\d+)?/g) ?? []).map(Number);
      const [xs, ys] = [numbers.filter((__, at) => at % 2 === 0), numbers.filter((__, at) => at % 2 === 1)];
      const covered = (Math.max(...xs) - Math.min(...xs)) * (Math.max(...ys) - Math.min(...ys));
      expect(covered).toBeLessThan(0.05 * width * height);
    }
    const letterOf = new Map<LineId, string>(split.lines.map(({ id, letter }) => [id, letter]));
    const heads = svgHeads(svg);
    expect(heads.length).toBeGreaterThan(100);
    const marks = new Map<string, readonly LineId[]>([...split.marks].map(([note, { lines }]) => [note, lines]));
    for (const { note, lines } of heads)
      expect([note, lines]).toEqual([note, (marks.get(note) ?? []).map((id) => letterOf.get(id)).join(' ')]);
    const colours = new Map(heads.filter(({ lines }) => !lines.includes(' ')).map(({ lines, fill }) => [lines, fill]));
    expect(new Set(colours.values()).size).toBe(colours.size);
    expect(colours.size).toBeGreaterThan(2);
  });
});
