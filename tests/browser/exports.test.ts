import { AxeBuilder } from '@axe-core/playwright';
import { strFromU8, unzipSync } from 'fflate';
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { inflateSync } from 'node:zlib';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { demoPieces } from '../../seed/demo-pieces.ts';
import { readScoreFile } from '../../music/index.ts';
import { startApp, type TestApp } from '../support/app.ts';
import { launchBrowser, openPage } from '../support/browser.ts';

let api: TestApp;
let browser: Browser;
let page: Page;
let songId: string;
let errors: readonly string[];

beforeAll(async () => {
  api = await startApp({ environment: { HEDDLE_WEB_DIR: 'dist/web' } });
  browser = await launchBrowser();
  const owner = await api.person('Maren');
  const { id: courseId } = await api.desk.courses.make(owner.person, { title: 'Files', summary: '' });
  const song = await api.desk.songs.make(owner.person, courseId, { title: 'Low water', composer: 'Ilse Brandt' });
  songId = song.id;
  const [piece] = demoPieces();
  const bytes = new TextEncoder().encode(piece!.musicXml);
  await api.desk.scores.upload(owner.person, songId, { fileName: 'low-water.musicxml', bytes });
  const opened = await openPage(browser);
  page = opened.page;
  errors = opened.errors;
  await page.goto(api.origin + new URL(await api.desk.people.issueSignInLink(owner.person.email)).pathname);
  await page.waitForURL(`${api.origin}/`);
});
afterAll(async () => {
  await browser.close();
  await api.stop();
});

const kept = process.env['HEDDLE_KEEP_FILES'];

/** Makes the file that is chosen and gives what the browser saved. */
async function made(): Promise<{ readonly name: string; readonly bytes: Uint8Array }> {
  const saving = page.waitForEvent('download', { timeout: 120_000 });
  await page.getByRole('button', { name: 'Make the file' }).click();
  const download = await saving;
  const name = download.suggestedFilename();
  const bytes = new Uint8Array(await readFile(await download.path()));
  if (kept !== undefined) {
    await mkdir(kept, { recursive: true });
    await writeFile(`${kept}/${name}`, bytes);
  }
  await page.getByText('is made').waitFor();
  return { name, bytes };
}

/** Picks an option behind the words that stand before it. */
const choose = (words: string, option: string) =>
  page
    .locator('label', { has: page.getByText(words, { exact: true }) })
    .locator('select')
    .selectOption(option);

async function openSlip(bars = ''): Promise<void> {
  await page.goto(`${api.origin}/songs/${songId}/table${bars}`);
  await page.locator('svg .vf-stavenote').first().waitFor();
  await page.getByRole('button', { name: 'Take out' }).click();
  await page.getByRole('dialog', { name: 'Take it out' }).getByLabel('I want').waitFor();
}

/** The colour type and the alpha of every pixel of an 8-bit RGBA PNG. **Source** PNG (third edition), 9 and 11. */
function pixelsOf(png: Uint8Array): { width: number; height: number; colourType: number; alphas: readonly number[] } {
  const view = new DataView(png.buffer, png.byteOffset);
  const [width, height, colourType] = [view.getUint32(16), view.getUint32(20), png[25] ?? 0];
  const parts: Uint8Array[] = [];
  for (let at = 8; at < png.length; at += view.getUint32(at) + 12)
    if (strFromU8(png.subarray(at + 4, at + 8)) === 'IDAT')
      parts.push(png.subarray(at + 8, at + 8 + view.getUint32(at)));
  const rows = inflateSync(Buffer.concat(parts));
  const stride = width * 4;
  const before = new Uint8Array(stride);
  const alphas: number[] = [];
  for (let y = 0; y < height; y += 1) {
    const filter = rows[y * (stride + 1)];
    const row = new Uint8Array(stride);
    for (let x = 0; x < stride; x += 1) {
      const [a, b, c] = [x < 4 ? 0 : row[x - 4]!, before[x]!, x < 4 ? 0 : before[x - 4]!];
      const [pa, pb, pc] = [Math.abs(b - c), Math.abs(a - c), Math.abs(a + b - 2 * c)];
      const paeth = pa <= pb && pa <= pc ? a : pb <= pc ? b : c;
      const guess = [0, a, b, (a + b) >> 1, paeth][filter ?? 0] ?? 0;
      row[x] = (rows[y * (stride + 1) + 1 + x]! + guess) & 255;
      if (x % 4 === 3) alphas.push(row[x]!);
    }
    before.set(row);
  }
  return { width, height, colourType, alphas };
}

const firstBars = '?bars=b1%2B0%2F1~b4%2B4%2F1';

describe('the slip that takes a song out', () => {
  it('prints the score as a PDF with title, numbers and every system', async () => {
    await openSlip('?bars=b1%2B0%2F1~b20%2B4%2F1');
    expect((await new AxeBuilder({ page }).include('[role=dialog]').analyze()).violations).toEqual([]);
    const { name, bytes } = await made();
    const text = Buffer.from(bytes).toString('latin1');
    expect(name).toMatch(/^low-water-.+\.pdf$/);
    expect(text.startsWith('%PDF-1.7')).toBe(true);
    expect(text.trimEnd().endsWith('%%EOF')).toBe(true);
    const count = Number(/\/Type \/Pages .*\/Count (\d+)/.exec(text)?.[1]);
    expect(text.match(/\/Type \/Page /g)).toHaveLength(count);
    expect(count).toBe(2);
    expect(text).toContain('/MediaBox [0 0 595.27');
  });

  it('draws bars as an SVG that stands alone, a head for each note', async () => {
    await openSlip(firstBars);
    await choose('I want', 'svg');
    const { bytes } = await made();
    const svg = strFromU8(bytes);
    const [piece] = demoPieces();
    const read = readScoreFile(new TextEncoder().encode(piece!.musicXml), {
      fileName: 'x',
      firstNoteNumber: 1,
      firstBarNumber: 1,
    });
    if (!read.ok) throw new Error('the demo cannot be read');
    const { bars, notes } = read.value.score;
    const end = bars[4]!.onsetTicks;
    const expected = new Set(notes.filter(({ onsetTicks }) => onsetTicks < end).map(({ id }) => id as string));
    const drawn = new Set([...svg.matchAll(/class="head" data-note="([^"]+)"/g)].map(([, note]) => note));
    expect(drawn).toEqual(expected);
    expect(svg).not.toMatch(/<text|<style|<image|href|font-family|NaN|var\(/);
    const alone = await browser.newPage();
    await alone.setContent(svg.replace(/^<\?xml[^>]*>/, ''));
    expect(await alone.locator('path').count()).toBeGreaterThan(100);
    await alone.close();
  });

  it('paints them as a PNG with an open ground, at the size that was asked for', async () => {
    await choose('I want', 'png');
    await choose('Pixels:', '1');
    const plain = pixelsOf((await made()).bytes);
    await choose('Pixels:', '2');
    await choose('Laid over', 'dark');
    const twice = pixelsOf((await made()).bytes);
    expect(plain.colourType).toBe(6);
    expect([twice.width, twice.height]).toEqual([plain.width * 2, plain.height * 2]);
    const open = plain.alphas.filter((alpha) => alpha === 0).length / plain.alphas.length;
    const closed = plain.alphas.filter((alpha) => alpha === 255).length / plain.alphas.length;
    expect(open).toBeGreaterThan(0.6);
    expect(closed).toBeGreaterThan(0.01);
  });

  it('writes notes for other programs', async () => {
    await choose('I want', 'midi');
    const midi = await made();
    expect([midi.name, strFromU8(midi.bytes.subarray(0, 4))]).toEqual(['low-water-lines.mid', 'MThd']);
    await choose('I want', 'musicxml');
    await choose('of', 'lines');
    const { name, bytes } = await made();
    expect(name).toBe('low-water-lines.musicxml');
    const read = readScoreFile(bytes, { fileName: name, firstNoteNumber: 1, firstBarNumber: 1 });
    expect(read.ok && read.value.score.parts.length).toBeGreaterThanOrEqual(3);
  });

  it('puts everything about an excerpt into one archive, from the song’s table and on a phone', async () => {
    await openSlip('?bars=b1%2B0%2F1~b2%2B4%2F1');
    await choose('I want', 'archive');
    await page.setViewportSize({ width: 390, height: 844 });
    const box = await page.getByRole('dialog', { name: 'Take it out' }).boundingBox();
    expect([box!.x >= 0, box!.x + box!.width <= 390]).toEqual([true, true]);
    if (kept !== undefined) await page.screenshot({ path: `${kept}/slip-phone.png` });
    const { name, bytes } = await made();
    await page.setViewportSize({ width: 1440, height: 900 });
    const files = unzipSync(bytes);
    const names = Object.keys(files);
    expect(name).toBe('low-water.zip');
    for (const start of [
      'all-lines.musicxml',
      'lines/',
      'pages-a4/',
      'pages-letter/',
      'pictures/',
      'as-it-came/low-water.musicxml',
    ])
      expect([start, names.some((path) => path.startsWith(start))]).toEqual([start, true]);
    const listed = strFromU8(files['contents.txt']!);
    for (const path of names.filter((one) => /^(pages|pictures)/.test(one))) expect(listed).toContain(path);
    expect(errors).toEqual([]);
  });

  it('is on the song’s own page too', async () => {
    await page.goto(`${api.origin}/songs/${songId}`);
    await page.getByRole('button', { name: 'Make a file' }).click();
    await page.getByLabel('I want').waitFor();
    if (kept !== undefined) await page.screenshot({ path: `${kept}/slip-song.png` });
    await page.getByRole('button', { name: 'Close' }).click();
    expect(errors).toEqual([]);
  });
});
