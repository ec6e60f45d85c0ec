import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApp, type TestApp } from '../support/app.ts';
import { barriersOn } from '../support/barriers.ts';
import { launchBrowser } from '../support/browser.ts';
import { makeCourse, splitOf } from '../support/course.ts';
import { sitDownAt } from '../support/table-page.ts';

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

it('a note is put on a second line, taken off both, heard and let go on a phone without a key', async () => {
  const course = await makeCourse(api);
  const { page, errors, close } = await sitDownAt(browser, api, course.owner, `${course.songId}/table`, 'phone');
  /** On how many lines notes are, where that is not one. */
  const otherwise = async () =>
    (await splitOf(course)).marks.map(([, { lines }]) => lines.length).filter((count) => count !== 1);
  await page.getByRole('button', { name: 'New line' }).click();
  await page.getByRole('group', { name: 'Lines' }).getByRole('button', { pressed: true }).click();
  const head = (await page.locator('[role="application"] .vf-notehead').first().boundingBox())!;
  await page.mouse.click(head.x + head.width / 2, head.y + head.height / 2);
  const deeds = page.getByRole('group', { name: 'The note', exact: true });
  await deeds.getByRole('button', { name: /Also on/ }).click();
  const slip = page.getByRole('dialog', { name: 'Put on as well' });
  await slip.waitFor();
  expect(await barriersOn(page, '[role="dialog"]')).toEqual([]);
  await slip.getByRole('button').last().click();
  await expect.poll(otherwise).toEqual([2]);
  await deeds.getByRole('button', { name: 'Off its line' }).click();
  await expect.poll(otherwise).toEqual([0]);
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect.poll(otherwise).toEqual([2]);
  await deeds.getByRole('button', { name: 'Play from here' }).click();
  await page.getByRole('button', { name: 'Stop', exact: true }).click();
  await deeds.getByRole('button', { name: 'Let go' }).click();
  await deeds.getByRole('button', { name: 'Let go' }).waitFor({ state: 'detached' });
  expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBeLessThanOrEqual(0);
  expect(errors).toEqual([]);
  await close();
});
