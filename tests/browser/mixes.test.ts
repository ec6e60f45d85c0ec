import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, Locator, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { ownMixes, songSound } from '../../contract/index.ts';
import { startApp, type TestApp } from '../support/app.ts';
import { barriersOn } from '../support/barriers.ts';
import { launchBrowser, openPage, sizes } from '../support/browser.ts';
import { makeCourse, type TestCourse } from '../support/course.ts';
import { makeLesson, releaseLesson } from '../support/lesson.ts';

let api: TestApp;
let browser: Browser;
const errors: (readonly string[])[] = [];

beforeAll(async () => {
  api = await startApp({ environment: { HEDDLE_WEB_DIR: 'dist/web' } });
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser.close();
  await api.stop();
});

afterEach(() => expect(errors.splice(0).flat()).toEqual([]));

async function pageOf(who: TestCourse['owner'], path: string): Promise<Page> {
  const opened = await openPage(browser);
  errors.push(opened.errors);
  await opened.page.goto(api.origin + new URL(await api.desk.people.issueSignInLink(who.person.email)).pathname);
  await opened.page.waitForURL(`${api.origin}/`);
  await opened.page.goto(api.origin + path);
  return opened.page;
}

/** A page at a course's table whose lines are there, so that keys that mean one find it. */
async function atTable(course: TestCourse): Promise<Page> {
  const page = await pageOf(course.owner, `/songs/${course.songId}/table`);
  await page.waitForSelector('[role="application"] .vf-notehead');
  await linesOf(page).getByRole('button', { pressed: false }).first().waitFor();
  return page;
}

const linesOf = (page: Page): Locator => page.getByRole('group', { name: 'Lines' });

/** Presses a key and waits until the table tells this of who is heard; a key that a busy browser swallowed is pressed again. */
async function pressUntil(page: Page, key: string, told: RegExp): Promise<void> {
  const telling = linesOf(page).getByRole('status').filter({ hasText: told });
  for (let tries = 1; ; tries += 1) {
    await page.keyboard.press(key);
    try {
      await telling.waitFor({ state: 'attached', timeout: 8_000 });
      return;
    } catch (error) {
      if (tries === 3) throw error;
    }
  }
}

/** The eye of the first line in the row of lines, and what is told of it to those who do not see it. */
async function firstEye(page: Page): Promise<readonly [tone: string | null, words: string | null]> {
  const line = linesOf(page).getByRole('button', { pressed: false }).first();
  const described = await line.getAttribute('aria-describedby');
  return [
    await line.locator('svg').first().getAttribute('data-tone'),
    await page.locator(`[id="${described ?? ''}"]`).textContent(),
  ];
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
    const course = await makeCourse(api);
    const page = await atTable(course);
    await pressUntil(page, 'h', / solo$/);
    await keepAndRecall(page, 'Only the first', () => pressUntil(page, 'h', /^Every line is heard$/));
    const kept = (await course.coTeacher.as.get(`/api/songs/${course.songId}/sound`)).as(songSound).mixes;
    expect(kept.map(({ name, lines }) => [name, lines.map(({ isSolo }) => isSolo)])).toEqual([
      ['Only the first', [true]],
    ]);
  });

  it('is seen by the eyes of the lines, and told to those who listen, as keys change it', async () => {
    const page = await atTable(await makeCourse(api));
    expect(await firstEye(page)).toEqual(['plain', 'heard']);
    await pressUntil(page, 'm', / muted$/);
    expect(await firstEye(page)).toEqual(['silent', 'silent']);
    const atEdge = page.locator('[data-tone="silent"][aria-label$=": open its sheet"]').first();
    await atEdge.waitFor();
    expect(await atEdge.getAttribute('aria-description')).toBe('silent');
    await pressUntil(page, 'm', /^Every line is heard$/);
    await pressUntil(page, 'b', / forward$/);
    expect(await firstEye(page)).toEqual(['forward', 'forward']);
  });

  it('stands beside how it plays, which has no barrier at either width', async () => {
    const page = await atTable(await makeCourse(api));
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

  it('is heard at the volume of this device, which is found again', async () => {
    const page = await atTable(await makeCourse(api));
    await page.getByRole('button', { name: /^How it plays/ }).click();
    await page.getByRole('slider', { name: 'Volume' }).press('ArrowLeft');
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'How it plays: 1 dB softer' }).waitFor();
    await page.reload();
    await page.getByRole('button', { name: 'How it plays: 1 dB softer' }).waitFor();
  });

  it('is kept and recalled by a student in a lesson', async () => {
    const course = await makeCourse(api);
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
  });
});
