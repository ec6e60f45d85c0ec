import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  excerptOf,
  excerptOfBars,
  openDocument,
  readScoreFile,
  stringQuartet,
  writeForPlayers,
  writeWrittenScore,
  type Score,
  type WrittenScore,
} from '../../music/index.ts';
import { registryScore } from '../../measure/registry-scores.ts';
import { demoPieces } from '../../seed/demo-pieces.ts';
import { launchBrowser } from '../support/browser.ts';
import { openEngravingPage } from '../support/engraving-page.ts';
import type { SeenHeads, WithLook } from '../support/look-at-heads.ts';
import { splitByVoice } from '../support/split-by-voice.ts';

let browser: Browser;
let page: Page;
beforeAll(async () => {
  browser = await launchBrowser();
  page = await openEngravingPage(browser, './look-at-heads.ts', 'lookAtHeads');
});
afterAll(async () => {
  await browser.close();
});

function demoScore(index: number): Score {
  const demo = demoPieces()[index]!;
  const source = { fileName: demo.fileName, firstNoteNumber: 1, firstBarNumber: 1 };
  const read = readScoreFile(new TextEncoder().encode(demo.musicXml), source);
  if (!read.ok) throw new Error(`${demo.fileName} cannot be read`);
  return read.value.score;
}

const barsOnPage = 12;

/** What is looked at: the first bars; the rest of a file says the same again. */
const mostStrips = 2;

function strips(written: WrittenScore): readonly string[] {
  const document = openDocument(writeWrittenScore(written));
  const ids = written.bars.map(({ bar }) => bar);
  const starts = ids.flatMap((first, index) => (index % barsOnPage === 0 ? [{ first, index }] : []));
  return starts
    .slice(0, mostStrips)
    .map(({ first, index }) => excerptOf(document, { first, last: ids[index + barsOnPage - 1] ?? ids.at(-1)! }));
}

/** How many heads and rests the written-out score itself has in the bars that are looked at. */
function countsOf({ bars, staves }: WrittenScore): { readonly heads: number; readonly rests: number } {
  const shown = Math.min(bars.length, barsOnPage * mostStrips);
  const events = staves.flatMap((staff) => staff.bars.slice(0, shown).flat());
  return {
    heads: events.flatMap(({ heads, graces }) => [...heads, ...graces]).length,
    rests: events.filter(({ heads }) => heads.length === 0).length,
  };
}

// The engraver is OpenSheetMusicDisplay 2.1.3, which reads our MusicXML without knowing where it came from.
describe.each([
  ['the first demo piece', () => demoScore(0)],
  ['the second demo piece', () => demoScore(1)],
  ['an invention in two parts', () => registryScore('v2/BWV_0773.xml')],
  ['a song with piano', () => registryScore('v3/Dichterliebe01.xml')],
  ['tuplets against a voice', () => registryScore('v3/SchbAvMaSample.xml')],
  ['a trio', () => registryScore('v3/MozartTrio.xml')],
  ['a sonata for a wind instrument', () => registryScore('v3/Telemann.xml')],
  ['chords in many voices', () => registryScore('v3/BrahWiMeSample.xml')],
] as const)('%s, written out', (_, read) => {
  const score = read();
  const whole = excerptOfBars(score, score.bars[0]!.id, score.bars.at(-1)!.id)!;

  it.each([
    ['line by line', {}],
    ['for a string quartet', { ensemble: stringQuartet }],
  ])('%s, is drawn with as many heads and rests as it has', async (_way, options) => {
    const written = writeForPlayers(score, splitByVoice(score), whole, { lengths: 'written', ...options }).value;
    const seen: SeenHeads = await page.evaluate(
      (xmls) => (globalThis as unknown as WithLook).lookAtHeads(xmls),
      strips(written),
    );
    const { heads, rests } = countsOf(written);
    expect(heads).toBeGreaterThan(0);
    expect(seen.missing).toEqual([]);
    expect([seen.wanted, seen.restsWanted, seen.restsDrawn]).toEqual([heads, rests, rests]);
    expect(seen.shared).toBe(0);
    expect(seen.misplaced).toEqual([]);
  });
});
