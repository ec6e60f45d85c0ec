import { existsSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { enrolmentCodeMade, lessonDetail, releaseDetail } from '../../contract/index.ts';
import { startApp, type SignedIn, type TestApp } from '../support/app.ts';
import { barriersOn } from '../support/barriers.ts';
import { launchBrowser } from '../support/browser.ts';
import { makeCourse, splitOf, type TestCourse } from '../support/course.ts';
import { makeLesson, releaseLesson } from '../support/lesson.ts';
import { settling } from '../support/settled.ts';

type Who = 'owner' | 'student' | null;
interface Screen {
  readonly name: string;
  readonly who: Who;
  readonly path: () => string;
  /** What is on the screen once it is all there. */
  readonly shows: string;
}

const world: {
  api?: TestApp;
  browser?: Browser;
  course?: TestCourse;
  lessonId: string;
  releaseId: string;
  emptySongId: string;
  code: string;
} = {
  lessonId: '',
  releaseId: '',
  emptySongId: '',
  code: '',
};
const courseId = () => world.course!.courseId;

const screens: readonly Screen[] = [
  { name: 'sign-in', who: null, path: () => '/sign-in', shows: 'form' },
  { name: 'spent sign-in link', who: null, path: () => '/sign-in/spent-spent-spent-spent-1', shows: '[role=alert]' },
  { name: 'unknown invitation', who: null, path: () => '/invitations/unknown-unknown-unknown', shows: '[role=alert]' },
  { name: 'enrolment', who: null, path: () => `/enrol/${world.code}`, shows: 'form' },
  { name: 'shelf of a teacher', who: 'owner', path: () => '/', shows: 'article' },
  { name: 'shelf of a student', who: 'student', path: () => '/', shows: 'article' },
  { name: 'course of a teacher', who: 'owner', path: () => `/courses/${courseId()}`, shows: '#people' },
  { name: 'course of a student', who: 'student', path: () => `/courses/${courseId()}`, shows: '#lessons' },
  { name: 'progress', who: 'owner', path: () => `/courses/${courseId()}/progress`, shows: 'main section' },
  { name: 'song', who: 'owner', path: () => `/songs/${world.course!.songId}`, shows: '#facts' },
  { name: 'song without a score', who: 'owner', path: () => `/songs/${world.emptySongId}`, shows: 'main section' },
  { name: 'lesson editor', who: 'owner', path: () => `/lessons/${world.lessonId}`, shows: '[data-ribbons] svg' },
  { name: 'lesson', who: 'student', path: () => `/released/${world.releaseId}`, shows: '[data-listen]' },
  { name: 'nothing here', who: 'owner', path: () => '/nowhere', shows: 'h1' },
];

async function pathOfEveryKind(course: TestCourse) {
  const lines = (await splitOf(course)).lines.map(({ id }) => id);
  const [first] = lines;
  const shape = { lines, mix: [] };
  return [
    { kind: 'hear', id: 'ribbons', title: 'As ribbons', forward: null, view: 'ribbons', ...shape },
    { kind: 'hear', id: 'threaded', title: 'Threaded', forward: first, view: 'threaded', ...shape },
    { kind: 'hear', id: 'written', title: 'Written out', forward: null, view: 'writtenOut', ...shape },
    { kind: 'echo', id: 'echo', title: 'Echo it', lines: [first], mix: [], view: 'ribbons' },
    { kind: 'reveal', id: 'reveal', title: 'Sing before you see it', lines: [first], view: 'ribbons' },
    { kind: 'fade', id: 'fade', title: 'While it fades', lines, fading: first, passes: 3, view: 'ribbons' },
  ];
}

async function makeReleasedLesson(course: TestCourse): Promise<{ lessonId: string; releaseId: string }> {
  const lesson = await makeLesson(course, 'One bar, closely');
  const steps = lesson.steps.map((step) => ({ ...step }));
  const path = await pathOfEveryKind(course);
  const walked = steps.map((step) => (step.kind === 'listen' ? { ...step, path } : step));
  const changed = await course.owner.as.send(
    'PATCH',
    `/api/lessons/${lesson.id}`,
    { steps: walked },
    { 'if-match': `"${lesson.version}"` },
  );
  changed.expect(200);
  const release = releaseDetail.parse(await releaseLesson(course, lesson.id));
  return { lessonId: lesson.id, releaseId: release.id };
}

beforeAll(async () => {
  expect(existsSync('dist/web/index.html'), 'the web is built: npm run build').toBe(true);
  const api = await startApp({ environment: { HEDDLE_WEB_DIR: 'dist/web' } });
  world.api = api;
  world.browser = await launchBrowser();
  const course = await makeCourse(api);
  world.course = course;
  Object.assign(world, await makeReleasedLesson(course));
  world.emptySongId = (
    await api.desk.songs.make(course.owner.person, course.courseId, { title: 'To come', composer: '' })
  ).id;
  world.code = (await course.owner.as.post(`/api/courses/${course.courseId}/enrolment-codes`)).as(
    enrolmentCodeMade,
  ).code;
});

afterAll(async () => {
  await world.browser?.close();
  await world.api?.stop();
});

const cookiesOf = ({ as }: SignedIn) =>
  as.cookie.split('; ').map((pair) => {
    const at = pair.indexOf('=');
    return { name: pair.slice(0, at), value: pair.slice(at + 1), url: world.api!.origin };
  });

const looks = [
  { width: 1280, colorScheme: 'light' },
  { width: 1280, colorScheme: 'dark' },
  { width: 360, colorScheme: 'light' },
] as const;

/** One session a person, so that what a screen has fetched and compiled serves the next one too. */
const sessions = new Map<Who, Promise<BrowserContext>>();
const sessionOf = (who: Who): Promise<BrowserContext> => {
  const session = sessions.get(who) ?? newSession(who);
  sessions.set(who, session);
  return session;
};

async function newSession(who: Who): Promise<BrowserContext> {
  const context = await world.browser!.newContext({ viewport: { width: 1280, height: 800 }, reducedMotion: 'reduce' });
  if (who !== null) await context.addCookies(cookiesOf(world.course![who]));
  return context;
}

interface OpenScreen {
  readonly page: Page;
  readonly settled: () => Promise<void>;
}

async function open({ who, path, shows }: Screen): Promise<OpenScreen> {
  const page = await (await sessionOf(who)).newPage();
  const settled = settling(page);
  await page.goto(world.api!.origin + path());
  await page.locator(shows).first().waitFor();
  await settled();
  return { page, settled };
}

/** How far a page reaches beyond its window. **Units** CSS pixels. */
const overflow = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

/** Looks at an open page wide and light, wide and dark, and 360 pixels narrow. */
async function expectNoBarrier({ page, settled }: OpenScreen): Promise<void> {
  for (const { width, colorScheme } of looks) {
    await page.setViewportSize({ width, height: 800 });
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
    await settled();
    expect(await barriersOn(page), `${width} ${colorScheme}`).toEqual([]);
    expect(await overflow(page), `${width} ${colorScheme}`).toBeLessThanOrEqual(0);
  }
}

describe('every screen, in light and dark, wide and 360 pixels narrow', () => {
  it.each(screens)('$name: axe finds nothing and nothing sticks out', async (screen) => {
    const opened = await open(screen);
    await expectNoBarrier(opened);
    expect(await opened.page.locator('h1').count()).toBe(1);
    await opened.page.close();
  });

  it('would find a barrier: a picture without words, and words too pale to read', async () => {
    const page = await (await sessionOf(null)).newPage();
    await page.setContent(
      '<html lang="en"><title>Pale</title><main><img src="x"><p style="color:#ddd">Pale</p></main>',
    );
    const found = await barriersOn(page);
    expect(found.map((finding) => finding.split(':')[0])).toEqual(['color-contrast', 'image-alt']);
    await page.close();
  });
});

describe('the first load', () => {
  it('fetches at most 200 kB of page, script and style, gzipped, and nothing of the engraver', async () => {
    const context = await world.browser!.newContext();
    await context.addCookies(cookiesOf(world.course!.owner));
    const page = await context.newPage();
    const bodies: Promise<[string, Buffer]>[] = [];
    page.on('response', (response) => {
      const isProgram = ['document', 'script', 'stylesheet'].includes(response.request().resourceType());
      if (isProgram) bodies.push(response.body().then((body) => [response.url(), body]));
    });
    const settled = settling(page);
    await page.goto(world.api!.origin);
    await page.locator('article').first().waitFor();
    await settled();
    const loaded = await Promise.all(bodies);
    const gzipped = loaded.reduce((sum, [, body]) => sum + gzipSync(body).byteLength, 0);
    expect(loaded.map(([url]) => url).join(' ')).not.toMatch(/opensheetmusicdisplay|worklet/);
    expect(gzipped).toBeGreaterThan(50_000);
    expect(gzipped).toBeLessThanOrEqual(200_000);
    console.info(`first load of the shelf: ${Math.round(gzipped / 1000)} kB gzipped, without fonts`);
    await context.close();
  });
});

const screenNamed = (name: string): Screen => screens.find((screen) => screen.name === name)!;

describe('a teacher', () => {
  it('mixes the lines of a step behind a word without a barrier, and the mix is kept', async () => {
    const screen = await open(screenNamed('lesson editor'));
    const { page } = screen;
    await page.getByRole('button', { name: 'Mix of As ribbons' }).click();
    await page.getByRole('dialog').waitFor();
    await expectNoBarrier(screen);
    await page.getByRole('dialog').getByRole('slider').first().focus();
    const kept = page.waitForResponse((response) => response.request().method() === 'PATCH');
    await page.keyboard.press('ArrowLeft');
    const { steps } = lessonDetail.parse(await (await kept).json());
    const path = steps.flatMap((step) => (step.kind === 'listen' ? step.path : []));
    expect(path.find(({ id }) => id === 'ribbons')).toMatchObject({ mix: [{ levelDb: -1, place: 0 }] });
    const eye = page.getByRole('group', { name: 'Lines', exact: true }).getByRole('button').last();
    await eye.press('Enter');
    await page.getByRole('heading', { name: (await eye.getAttribute('aria-label')) ?? '', level: 3 }).waitFor();
    await page.close();
  });

  it('is asked before a lesson goes, without a barrier, and can leave it', async () => {
    const screen = await open(screenNamed('course of a teacher'));
    const { page } = screen;
    const word = page.getByRole('button', { name: 'Delete One bar, closely' });
    await word.click();
    await page.getByRole('dialog').waitFor();
    await expectNoBarrier(screen);
    await page.getByRole('button', { name: 'No, go back' }).click();
    await expect.poll(() => page.getByRole('dialog').count()).toBe(0);
    expect(await word.count()).toBe(1);
    await page.close();
  });
});

describe('a student in a lesson', () => {
  const lesson = screenNamed('lesson');
  const step = (page: Page, title: string) =>
    page.getByRole('navigation', { name: 'Listening path' }).getByRole('button', { name: title });

  it.each(['As ribbons', 'Threaded', 'Written out', 'Echo it', 'Sing before you see it', 'While it fades'])(
    'meets no barrier in the step “%s”',
    async (title) => {
      const screen = await open(lesson);
      const { page } = screen;
      await step(page, title).click();
      await expectNoBarrier(screen);
      await page.close();
    },
  );

  it('sings before seeing, reveals, marks it, and finds the mark again after a reload', async () => {
    const { page } = await open(lesson);
    await step(page, 'Sing before you see it').click();
    const shownNotes = page.locator('[data-ribbons] [data-note]');
    expect(await shownNotes.count()).toBe(1);
    await page.getByRole('button', { name: 'Reveal the line' }).click();
    await expect.poll(() => shownNotes.count()).toBeGreaterThan(1);
    const kept = page.waitForResponse(
      (response) => response.url().endsWith('/attempts') && response.request().method() === 'POST',
    );
    await page.getByRole('button', { name: 'I had it' }).click();
    expect((await kept).status()).toBe(201);
    await page.reload();
    await expect.poll(() => step(page, 'Sing before you see it').innerText()).toContain('sung');
    await page.close();
  });

  it('walks the notes of a line by keyboard', async () => {
    const { page } = await open(lesson);
    const first = page.locator('[data-ribbons] [data-note][tabindex="0"]').first();
    await first.focus();
    const focusedNote = () => page.evaluate(() => document.activeElement?.getAttribute('data-note'));
    const before = await focusedNote();
    await page.keyboard.press('ArrowRight');
    expect(await focusedNote()).not.toBe(before);
    await page.keyboard.press('ArrowLeft');
    expect(await focusedNote()).toBe(before);
    await page.close();
  });
});
