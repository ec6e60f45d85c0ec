import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApp, type TestApp } from '../support/app.ts';
import { barriersOn } from '../support/barriers.ts';
import { launchBrowser, openPage } from '../support/browser.ts';
import { makeCourse, type TestCourse } from '../support/course.ts';
import { makeLesson, releaseLesson } from '../support/lesson.ts';

let api: TestApp;
let browser: Browser;
let course: TestCourse;

beforeAll(async () => {
  api = await startApp({ environment: { HEDDLE_WEB_DIR: 'dist/web' } });
  browser = await launchBrowser();
  course = await makeCourse(api);
});
afterAll(async () => {
  await browser.close();
  await api.stop();
});

/** What stands at the notes of the first line's ribbon, and how each is said with its octave. */
const told = async (page: Page): Promise<readonly [string, string][]> =>
  page
    .locator('[data-ribbons] [data-note]')
    .evaluateAll((notes) =>
      notes.map((note): [string, string] => [
        note.querySelector('[data-label]')?.textContent ?? '',
        note.getAttribute('aria-label')?.split(',')[0] ?? '',
      ]),
    );

it('a student sings along, an octave from where the line is written, and finds the labels and the voice again', async () => {
  const release = await releaseLesson(course, (await makeLesson(course)).id);
  const { page, errors } = await openPage(browser);
  await page.goto(api.origin + new URL(await api.desk.people.issueSignInLink(course.student.person.email)).pathname);
  await page.waitForURL(`${api.origin}/`);
  await page.goto(`${api.origin}/released/${release.id}`);
  await page.getByRole('button', { name: 'Ribbons' }).click();
  const written = await told(page);
  expect(written.length).toBeGreaterThan(0);

  await page.getByRole('button', { name: /^On the ribbons/ }).click();
  await page.getByRole('button', { name: 'do, re, mi', exact: true }).click();
  await expect
    .poll(async () => (await told(page)).map(([label]) => label))
    .toContainEqual(expect.stringMatching(/^(do|re|mi|fa|sol|la|ti)$/));

  await page.getByRole('button', { name: /^Sing along/ }).click();
  const slip = page.getByRole('dialog', { name: 'Sing along' });
  await slip.getByRole('group', { name: 'The line to sing' }).getByRole('button').first().click();
  await slip.getByRole('button', { name: 'high', exact: true }).click();
  await slip.getByText(/within your voice|beyond your voice/).waitFor();
  expect(await barriersOn(page, '[role="dialog"]')).toEqual([]);
  await slip.getByRole('button', { name: 'Drone on the tonic' }).click();
  await expect
    .poll(() => slip.getByRole('button', { name: 'Drone on the tonic' }).getAttribute('aria-pressed'))
    .toBe('true');
  await slip.getByRole('button', { name: 'Sound the first note' }).click();
  await page.keyboard.press('Escape');
  await page.getByRole('note').filter({ hasText: 'for singing only' }).waitFor();
  const sung = await told(page);
  expect(sung.map(([label]) => label)).not.toEqual(written.map(([label]) => label));
  expect(sung.map(([, name]) => name)).not.toEqual(written.map(([, name]) => name));

  await page.reload();
  await page.getByRole('button', { name: 'Ribbons' }).click();
  await page.getByRole('button', { name: 'On the ribbons: with do, re, mi' }).waitFor();
  expect((await told(page)).map(([, name]) => name)).toEqual(written.map(([, name]) => name));
  await page.getByRole('button', { name: /^Sing along/ }).click();
  expect(await slip.getByRole('button', { name: 'high', exact: true }).getAttribute('aria-pressed')).toBe('true');
  expect(errors).toEqual([]);
});
