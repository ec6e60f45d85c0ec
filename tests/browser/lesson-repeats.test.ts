import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApp, type TestApp } from '../support/app.ts';
import { launchBrowser, openPage } from '../support/browser.ts';
import { makeCourse } from '../support/course.ts';
import { makeLesson, releaseLesson } from '../support/lesson.ts';
import { measuresXml } from '../support/measures.ts';

let api: TestApp;
let browser: Browser;

beforeAll(async () => {
  api = await startApp({ environment: { HEDDLE_WEB_DIR: 'dist/web' } });
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser.close();
  await api.stop();
});

const note = (step: string): string =>
  `<note><pitch><step>${step}</step><octave>4</octave></pitch><duration>24</duration><voice>1</voice><type>quarter</type></note>`;
const repeat = '<barline location="right"><bar-style>light-heavy</bar-style><repeat direction="backward"/></barline>';

/** Plays to the end, and tells how often the place went back on its way. */
async function returnsWhilePlaying(page: Page): Promise<number> {
  await page.evaluate(() => {
    const places: number[] = [];
    const line = document.querySelector('[data-place]');
    const look = () => places.push(Number(/translate\(([\d.]+)/.exec(line?.getAttribute('transform') ?? '')?.[1] ?? 0));
    new MutationObserver(look).observe(line!, { attributes: true, attributeFilter: ['transform'] });
    Object.assign(window, { places });
  });
  await page.getByRole('button', { name: /^Play / }).click();
  await page.getByRole('button', { name: 'Stop', exact: true }).waitFor();
  await page.getByRole('button', { name: /^Play / }).waitFor();
  const places = await page.evaluate(() => (window as unknown as { places: number[] }).places);
  return places.filter((place, index) => index > 0 && place < places[index - 1]! - 40).length;
}

it('an excerpt follows its repeats, until one asks for it as printed', async () => {
  const bytes = new TextEncoder().encode(measuresXml([`${['C', 'D', 'E', 'F'].map(note).join('')}${repeat}`]));
  const course = await makeCourse(api, bytes);
  const release = await releaseLesson(course, (await makeLesson(course)).id);
  const { page, errors } = await openPage(browser);
  await page.goto(api.origin + new URL(await api.desk.people.issueSignInLink(course.student.person.email)).pathname);
  await page.waitForURL(`${api.origin}/`);
  await page.goto(`${api.origin}/released/${release.id}`);
  await page.getByRole('button', { name: 'Ribbons' }).click();
  await page.waitForSelector('[data-ribbons] [data-note]');
  expect(await returnsWhilePlaying(page)).toBe(1);
  await page.getByRole('button', { name: /^How it plays/ }).click();
  await page.getByLabel('Repeats are').selectOption('printed');
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: 'How it plays: no repeats' }).waitFor();
  expect(await returnsWhilePlaying(page)).toBe(0);
  expect(errors).toEqual([]);
});
