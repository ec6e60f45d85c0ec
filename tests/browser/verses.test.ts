import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApp, type TestApp } from '../support/app.ts';
import { barriersOn } from '../support/barriers.ts';
import { launchBrowser, openPage } from '../support/browser.ts';
import { makeCourse, type TestCourse } from '../support/course.ts';
import { makeLesson, releaseLesson } from '../support/lesson.ts';

/** A strophe of three verses that is repeated, and a refrain. */
const boats = `X:1
T:Three Boats
M:4/4
L:1/4
K:G
V:1 name="Guitar"
|: G A B d :|
w: Morn-ing comes up
w: Noon-day burns on
w: Eve-ning sails home
| d B A G |]
w: Row a-way, row
`;

let api: TestApp;
let browser: Browser;
let course: TestCourse;

beforeAll(async () => {
  api = await startApp({ environment: { HEDDLE_WEB_DIR: 'dist/web' } });
  browser = await launchBrowser();
  const made = await makeCourse(api);
  const { person } = made.owner;
  const song = await api.desk.songs.make(person, made.courseId, { title: 'Three Boats', composer: '' });
  await api.desk.scores.upload(person, song.id, { fileName: 'boats.abc', bytes: new TextEncoder().encode(boats) });
  course = { ...made, songId: song.id };
});
afterAll(async () => {
  await browser.close();
  await api.stop();
});

async function signIn(page: Page, email: string): Promise<void> {
  await page.goto(api.origin + new URL(await api.desk.people.issueSignInLink(email)).pathname);
  await page.waitForURL(`${api.origin}/`);
}

const sung = (page: Page): Promise<string> =>
  page
    .locator('[data-ribbons] [data-note] [data-label]')
    .evaluateAll((labels) => labels.map((label) => label.textContent).join(' '));

async function chooseVerse(page: Page, verse: string): Promise<void> {
  await page.getByRole('button', { name: /^The verse that is sung/ }).click();
  expect(await barriersOn(page, '[role="dialog"]')).toEqual([]);
  await page.getByRole('button', { name: verse, exact: true }).click();
}

it('a teacher sees all verses under the score and chooses one for the ribbons', async () => {
  const { page, errors } = await openPage(browser);
  await signIn(page, course.owner.person.email);
  await page.goto(`${api.origin}/songs/${course.songId}/table`);
  for (const word of ['Morn', 'Noon', 'Eve', 'Row'])
    await page.locator('svg').getByText(word, { exact: true }).first().waitFor();
  await page.getByRole('button', { name: 'Ribbons' }).click();
  await page.getByRole('button', { name: /^On the ribbons/ }).click();
  await page.getByRole('button', { name: 'words', exact: true }).click();
  await expect.poll(() => sung(page)).toBe('Morn- ing comes up Row a- way, row');
  await chooseVerse(page, 'verse 3');
  await expect.poll(() => sung(page)).toBe('Eve- ning sails home Row a- way, row');
  expect(errors).toEqual([]);
});

it('a student sings the verse that was chosen before', async () => {
  const release = await releaseLesson(course, (await makeLesson(course)).id);
  const { page, errors } = await openPage(browser, 'phone');
  await signIn(page, course.student.person.email);
  await page.goto(`${api.origin}/released/${release.id}`);
  await page.getByRole('button', { name: 'Ribbons' }).click();
  await page.getByRole('button', { name: /^On the ribbons/ }).click();
  await page.getByRole('button', { name: 'words', exact: true }).click();
  await chooseVerse(page, 'verse 2');
  await expect.poll(() => sung(page)).toBe('Noon- day burns on');
  await page.reload();
  await page.getByRole('button', { name: 'Ribbons' }).click();
  await page.getByRole('button', { name: 'The verse that is sung: verse 2' }).waitFor();
  expect(await barriersOn(page, 'main')).toEqual([]);
  expect(errors).toEqual([]);
});
