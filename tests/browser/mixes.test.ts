import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ownMixes, songSound } from '../../contract/index.ts';
import { startApp, type TestApp } from '../support/app.ts';
import { barriersOn } from '../support/barriers.ts';
import { launchBrowser, openPage, sizes } from '../support/browser.ts';
import { makeCourse, type TestCourse } from '../support/course.ts';
import { makeLesson, releaseLesson } from '../support/lesson.ts';

let api: TestApp;
let browser: Browser;
let course: TestCourse;
const errors: (readonly string[])[] = [];

beforeAll(async () => {
  api = await startApp({ environment: { HEDDLE_WEB_DIR: 'dist/web' } });
  browser = await launchBrowser();
  course = await makeCourse(api);
});
afterAll(async () => {
  await browser.close();
  await api.stop();
});

async function pageOf(who: TestCourse['owner'], path: string): Promise<Page> {
  const opened = await openPage(browser);
  errors.push(opened.errors);
  await opened.page.goto(api.origin + new URL(await api.desk.people.issueSignInLink(who.person.email)).pathname);
  await opened.page.waitForURL(`${api.origin}/`);
  await opened.page.goto(api.origin + path);
  return opened.page;
}

/** Keeps what is heard under a name, puts away all that was set, and hears it again by its name. */
async function keepAndRecall(page: Page, name: string, unset: () => Promise<void>): Promise<void> {
  const word = page.getByRole('button', { name: /^Mix(es|:)/ });
  await word.click();
  const slip = page.getByRole('dialog', { name: 'Mixes' });
  await slip.getByLabel('Keep what is heard as').fill(name);
  await slip.getByRole('button', { name: 'Keep', exact: true }).click();
  await page.getByRole('button', { name: `Mix: ${name}`, includeHidden: true }).waitFor();
  expect((await new AxeBuilder({ page }).include('[role="dialog"]').analyze()).violations).toEqual([]);
  await page.keyboard.press('Escape');
  await unset();
  await page.getByRole('button', { name: 'Mixes', exact: true }).click();
  await slip.getByRole('button', { name, exact: true }).click();
  await page.getByRole('button', { name: `Mix: ${name}`, includeHidden: true }).waitFor();
  await page.keyboard.press('Escape');
}

describe('a named mix', () => {
  it('is kept and recalled by a teacher at the table, and is there for the next one', async () => {
    const page = await pageOf(course.owner, `/songs/${course.songId}/table`);
    await page.waitForSelector('[role="application"] .vf-notehead');
    await page.keyboard.press('h');
    await keepAndRecall(page, 'Only the first', () => page.keyboard.press('h'));
    const kept = (await course.coTeacher.as.get(`/api/songs/${course.songId}/sound`)).as(songSound).mixes;
    expect(kept.map(({ name, lines }) => [name, lines.map(({ isSolo }) => isSolo)])).toEqual([
      ['Only the first', [true]],
    ]);
  });

  it('stands beside how it plays, which has no barrier at either width', async () => {
    const page = await pageOf(course.owner, `/songs/${course.songId}/table`);
    await page.waitForSelector('[role="application"] .vf-notehead');
    for (const size of [sizes.desktop, sizes.phone]) {
      await page.setViewportSize(size);
      await page.getByRole('button', { name: /^How it plays/ }).click();
      await page.getByLabel('The click is').selectOption('3');
      expect(await barriersOn(page)).toEqual([]);
      await page.getByRole('button', { name: 'How the song is played, for everybody' }).click();
      await page.getByRole('dialog', { name: 'How the song is played' }).waitFor();
      expect(await barriersOn(page)).toEqual([]);
      await page.keyboard.press('Escape');
      expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBeLessThanOrEqual(
        0,
      );
    }
    expect(await page.getByRole('button', { name: /^How it plays/ }).textContent()).toContain('click on thirds');
  });

  it('is kept and recalled by a student in a lesson', async () => {
    const release = await releaseLesson(course, (await makeLesson(course)).id);
    const page = await pageOf(course.student, `/released/${release.id}`);
    await page.getByRole('button', { name: 'Written out' }).waitFor();
    await page.getByRole('button', { name: 'Ribbons' }).click();
    const toggleMute = async () => {
      await page
        .getByRole('button', { name: /: (heard|silent)$/ })
        .first()
        .click();
      await page.getByRole('button', { name: 'Mute' }).click();
      await page.keyboard.press('Escape');
    };
    await toggleMute();
    await keepAndRecall(page, 'Without it', toggleMute);
    const own = (await course.student.as.get(`/api/releases/${release.id}/own-mixes`)).as(ownMixes).mixes;
    expect(own.map(({ name }) => name)).toEqual(['Without it']);
    expect(errors.flat()).toEqual([]);
  });
});
