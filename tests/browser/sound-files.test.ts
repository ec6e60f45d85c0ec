import { unzipSync } from 'fflate';
import { readFile } from 'node:fs/promises';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApp, type TestApp } from '../support/app.ts';
import { launchBrowser, openPage } from '../support/browser.ts';
import { tinyScore } from '../support/tiny-musicxml.ts';

let api: TestApp;
let browser: Browser;
let page: Page;
let errors: readonly string[];

beforeAll(async () => {
  api = await startApp({ environment: { HEDDLE_WEB_DIR: 'dist/web' } });
  browser = await launchBrowser();
  const owner = await api.person('Maren');
  const { id: courseId } = await api.desk.courses.make(owner.person, { title: 'Files', summary: '' });
  const song = await api.desk.songs.make(owner.person, courseId, { title: 'Two bars', composer: '' });
  const text = tinyScore(['v1s1 E4:q G4:q A4:h ; v2s1 E3:h B3:h | v1s1 G4:w ; v2s1 E3:w', { name: 'Guitar' }]);
  const bytes = new TextEncoder().encode(text);
  await api.desk.scores.upload(owner.person, song.id, { fileName: 'two-bars.musicxml', bytes });
  const opened = await openPage(browser);
  page = opened.page;
  errors = opened.errors;
  await page.goto(api.origin + new URL(await api.desk.people.issueSignInLink(owner.person.email)).pathname);
  await page.waitForURL(`${api.origin}/`);
  await page.goto(`${api.origin}/songs/${song.id}`);
  await page.getByRole('button', { name: 'Make a file' }).click();
});
afterAll(async () => {
  await browser.close();
  await api.stop();
});

const choose = (words: string, option: string) =>
  page
    .locator('label', { has: page.getByText(words, { exact: true }) })
    .locator('select')
    .selectOption(option);

/** The sounds in the zip that is made of the present choice. */
async function madeSounds(): Promise<Readonly<Record<string, Uint8Array>>> {
  const saving = page.waitForEvent('download', { timeout: 60_000 });
  await page.getByRole('button', { name: 'Make the files' }).click();
  const download = await saving;
  expect(download.suggestedFilename()).toBe('two-bars.zip');
  await page.getByRole('dialog').getByText('is made').waitFor();
  return unzipSync(new Uint8Array(await readFile(await download.path())));
}

/** Both sides as Chromium itself decodes them; they cross as text, which is quicker than numbers. */
async function decoded(bytes: Uint8Array): Promise<readonly Float32Array[]> {
  const sides = await page.evaluate(async (text) => {
    const file = Uint8Array.from(atob(text), (sign) => sign.charCodeAt(0));
    const sound = await new OfflineAudioContext(2, 1, 48_000).decodeAudioData(file.buffer);
    return [0, 1].map((side) => {
      const samples = new Uint8Array(sound.getChannelData(side).buffer);
      let out = '';
      for (let at = 0; at < samples.length; at += 8192) out += String.fromCharCode(...samples.subarray(at, at + 8192));
      return btoa(out);
    });
  }, Buffer.from(bytes).toString('base64'));
  return sides.map((text) => new Float32Array(Uint8Array.from(Buffer.from(text, 'base64')).buffer));
}

const isSame = (one: Float32Array, other: Float32Array): boolean =>
  one.length === other.length && one.every((value, index) => value === other[index]);

describe('sound files', () => {
  it('are made in the page: WAV of each line that sums to the mix, FLAC of the very same samples, MP3 as long', async () => {
    await choose('I want', 'wav');
    await choose('in', 'stems');
    const wav = await madeSounds();
    const names = Object.keys(wav).map((name) => name.replace('.wav', ''));
    expect(names).toEqual(['mix', 'm-melody', 'b-bass']);
    const told = await page.getByRole('row', { name: /all together/ }).innerText();
    expect(Math.abs(Number(/−([\d.]+) LUFS/.exec(told)?.[1]) - 16), told).toBeLessThan(0.15);
    const sounds = await Promise.all(Object.values(wav).map(decoded));
    const [mix, ...stems] = sounds.map(([left]) => left!);
    const apart = mix!.map((value, index) => Math.abs(value - stems.reduce((sum, stem) => sum + stem[index]!, 0)));
    expect(apart.reduce((a, b) => Math.max(a, b), 0)).toBeLessThan(10 ** (-90 / 20));

    await choose('I want', 'flac');
    await choose('in', 'stems');
    const flac = await madeSounds();
    expect(flac['mix.flac']!.length).toBeLessThan(wav['mix.wav']!.length / 1.5);
    for (const [index, name] of names.entries()) {
      const sides = await decoded(flac[`${name}.flac`]!);
      expect(sides.map((side, place) => isSame(side, sounds[index]![place]!))).toEqual([true, true]);
    }

    await choose('I want', 'mp3');
    await choose('in', 'stems');
    const [left] = await decoded((await madeSounds())['mix.mp3']!);
    expect(Math.abs(left!.length - mix!.length)).toBeLessThan(0.1 * 48_000);
    expect(errors).toEqual([]);
  });

  it('can be stopped on the way, and then again be begun', async () => {
    await choose('I want', 'wav');
    await choose('The tempo is', '25');
    await page.getByRole('button', { name: 'Make the file' }).click();
    await page.getByRole('button', { name: 'Stop' }).click();
    await page.getByRole('button', { name: 'Make the file' }).waitFor();
    expect(await page.getByRole('dialog').getByText('is made').count()).toBe(0);
  });
});
