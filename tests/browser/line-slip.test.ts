import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApp, type TestApp } from '../support/app.ts';
import { launchBrowser, openPage, type sizes } from '../support/browser.ts';
import { makeCourse } from '../support/course.ts';
import { makeLesson, releaseLesson } from '../support/lesson.ts';

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

const ways: readonly (readonly [keyof typeof sizes, string, (page: Page) => Promise<void>])[] = [
  ['phone', 'its word', (page) => page.getByRole('button', { name: 'Close' }).click()],
  ['desktop', 'a key', (page) => page.keyboard.press('Escape')],
];

it.each(ways)(
  'the slip with the sound of a line in a lesson on a %s is closed by %s, and its eye has the focus again',
  async (size, _, close) => {
    const course = await makeCourse(api);
    const release = await releaseLesson(course, (await makeLesson(course)).id);
    const { page, errors } = await openPage(browser, size);
    await page.goto(api.origin + new URL(await api.desk.people.issueSignInLink(course.student.person.email)).pathname);
    await page.waitForURL(`${api.origin}/`);
    await page.goto(`${api.origin}/released/${release.id}`);
    await page.getByRole('button', { name: 'Written out' }).click();
    const eye = page.locator('button[data-line]').first();
    await eye.click();
    const slip = page.getByRole('dialog', { name: /^The sound of / });
    await slip.getByRole('button', { name: 'Mute' }).click();
    await close(page);
    await slip.waitFor({ state: 'detached' });
    expect(await eye.getAttribute('data-tone')).toBe('silent');
    await expect.poll(() => eye.evaluate((button) => button === document.activeElement)).toBe(true);
    expect(errors).toEqual([]);
  },
);
