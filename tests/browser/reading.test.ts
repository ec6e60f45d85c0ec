import { AxeBuilder } from '@axe-core/playwright';
import toneMidi from '@tonejs/midi';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApp, type TestApp } from '../support/app.ts';
import { launchBrowser, openPage } from '../support/browser.ts';
import { twoGuitars } from '../support/two-guitars.ts';

let api: TestApp;
let browser: Browser;
let page: Page;
let songId: string;
let twoId: string;
let errors: readonly string[];

/** Written by another library: long and short notes in the time of triplets, on a steel guitar. */
function pairs(): Uint8Array {
  const midi = new toneMidi.Midi();
  midi.header.setTempo(100);
  const track = midi.addTrack();
  track.instrument.number = 25;
  const quarter = midi.header.ppq;
  for (let index = 0; index < 16; index += 1) {
    const ticks = quarter * (index >> 1) + (index % 2) * ((quarter * 2) / 3);
    track.addNote({ midi: 60 + (index % 5), ticks, durationTicks: index % 2 === 0 ? (quarter * 2) / 3 : quarter / 3 });
  }
  return midi.toArray();
}

beforeAll(async () => {
  api = await startApp({ environment: { HEDDLE_WEB_DIR: 'dist/web' } });
  browser = await launchBrowser();
  const owner = await api.person('Maren');
  const { id: courseId } = await api.desk.courses.make(owner.person, { title: 'Files', summary: '' });
  const song = await api.desk.songs.make(owner.person, courseId, { title: 'Pairs', composer: '' });
  songId = song.id;
  await api.desk.scores.upload(owner.person, songId, { fileName: 'pairs.mid', bytes: pairs() });
  const two = await api.desk.songs.make(owner.person, courseId, { title: 'Two guitars', composer: '' });
  twoId = two.id;
  const bytes = new TextEncoder().encode(twoGuitars());
  await api.desk.scores.upload(owner.person, twoId, { fileName: 'two.musicxml', bytes });
  const opened = await openPage(browser, 'phone');
  page = opened.page;
  errors = opened.errors;
  await page.goto(api.origin + new URL(await api.desk.people.issueSignInLink(owner.person.email)).pathname);
  await page.waitForURL(`${api.origin}/`);
});
afterAll(async () => {
  await browser.close();
  await api.stop();
});

it('a teacher sees how a file was read and has it read otherwise', async () => {
  await page.goto(`${api.origin}/songs/${songId}`);
  await page.getByText('Time was counted with swing throughout.').waitFor();
  await page.getByLabel('Count its time').selectOption({ label: 'in triplets' });
  await page.getByRole('button', { name: 'Read it again' }).click();
  await page.getByText('Time was counted in triplets throughout.').waitFor();
  await page.getByText('Read again, as version 2.').waitFor();
  await page.getByText('every note is on one').waitFor();
  const { violations } = await new AxeBuilder({ page }).analyze();
  expect(violations.map(({ id }) => id)).toEqual([]);
  expect(errors).toEqual([]);
});

it('a teacher has one guitar of two read at another octave', async () => {
  await page.goto(`${api.origin}/songs/${twoId}`);
  const low = page.getByRole('group', { name: 'Low guitar' });
  await low.getByText('Sounds an octave lower than its notes: assumed').waitFor();
  await low.getByLabel('Let it sound').selectOption({ label: 'just as its notes say' });
  await low.getByLabel('With the capo, its notes are').selectOption({ label: 'as they sound with the capo' });
  await page.getByRole('button', { name: 'Read it again' }).click();
  await page.getByText('Read again, as version 2.').waitFor();
  await low.getByText('Sounds just as its notes say: as you chose.').waitFor();
  await low.getByText('By the file alone it sounds an octave lower than its notes: assumed').waitFor();
  await page.getByRole('group', { name: 'High guitar' }).getByText('as its clef says').waitFor();
  const { violations } = await new AxeBuilder({ page }).analyze();
  expect(violations.map(({ id }) => id)).toEqual([]);
  expect(errors).toEqual([]);
});

it('the table tells a proposed string and fret for a note that has none', async () => {
  await page.goto(`${api.origin}/songs/${songId}/table`);
  await page.locator('svg .vf-stavenote').first().waitFor();
  await page.getByRole('application').first().focus();
  await page.keyboard.press('ArrowRight');
  // C4, MIDI 60, is the first fret of the second string or lies higher up on a lower one. Common practice, no source.
  await page.getByText(/C4.* · proposed: string 2, fret 1/).waitFor();
  expect(errors).toEqual([]);
});
