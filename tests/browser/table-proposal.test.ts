import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest';
import { splitSnapshot } from '../../contract/index.ts';
import { lineId, noteId, type Operation } from '../../music/index.ts';
import { startApp, type TestApp } from '../support/app.ts';
import { barriersOn } from '../support/barriers.ts';
import { launchBrowser } from '../support/browser.ts';
import { makeCourse, type TestCourse } from '../support/course.ts';
import { sitDownAt, type TablePage } from '../support/table-page.ts';
import { tinyScore } from '../support/tiny-musicxml.ts';

/** A figure that returns in every other bar; its B, between the lines, could be either’s. */
const figure = 'A2+A4:q E4:q C4+B3:q D4:q';
const other = 'G2+B4:q D4+G4:q G2+D4:q B3:q';
const bars = Array.from({ length: 8 }, (_, index) => (index % 2 === 0 ? figure : other));

let api: TestApp;
let browser: Browser;
let course: TestCourse;
let songId: string;
/** The line that the note between has been proposed for, and the other one. */
let [own, meant] = [lineId(''), lineId('')];

beforeAll(async () => {
  api = await startApp({ environment: { HEDDLE_WEB_DIR: 'dist/web' } });
  browser = await launchBrowser();
  course = await makeCourse(api);
});
afterAll(async () => {
  await browser.close();
  await api.stop();
});

beforeEach(async () => {
  const { owner, courseId } = course;
  const song = await api.desk.songs.make(owner.person, courseId, { title: 'Figure', composer: '' });
  songId = song.id;
  await api.desk.scores.upload(owner.person, songId, {
    fileName: 'figure.musicxml',
    bytes: new TextEncoder().encode(tinyScore([bars.join('|')])),
  });
  const marks = await marksNow();
  await submit(sureOfAllBut(marks));
  const { lines } = await snapshotNow();
  expect(lines.map(({ role }) => role)).toEqual(['melody', 'bass']);
  own = lineId(marks.find(({ note }) => note === between[0])?.lines[0] ?? '');
  meant = lines.find(({ id }) => id !== own)?.id ?? own;
});

interface MarkNow {
  readonly note: string;
  readonly lines: readonly string[];
  readonly from: string;
}

const snapshotNow = async () => (await course.owner.as.get(`/api/songs/${songId}/split`)).expect(200).as(splitSnapshot);
const marksNow = async (): Promise<readonly MarkNow[]> => {
  const { marks } = await snapshotNow();
  const orderOf = ({ note }: MarkNow): number => Number(/\d+$/.exec(note)?.[0] ?? 0);
  return marks.map(([note, { lines, from }]) => ({ note, lines, from })).sort((a, b) => orderOf(a) - orderOf(b));
};

async function submit(operation: Operation): Promise<void> {
  const { revision } = await snapshotNow();
  const id = `operation-${songId.slice(-12)}-${revision}`;
  (
    await course.owner.as.post(`/api/songs/${songId}/split/operations`, { id, baseRevision: revision, operation })
  ).expect(201);
}

/** The first note of the figure that is between the lines, and the ones that correspond to it. */
let between: readonly string[] = [];

/** What was proposed at first, sure of all but two notes, whatever the proposal itself said of them. */
function sureOfAllBut(marks: readonly MarkNow[]): Operation {
  const heights = bars.flatMap((bar) => bar.split(' ').flatMap((chord) => chord.split(':')[0]!.split('+')));
  expect(marks).toHaveLength(heights.length);
  between = marks.map(({ note }) => note).filter((_, index) => heights[index] === 'B3' && index % 13 < 6);
  const unsure = new Set([between[0], marks[8]?.note]);
  return {
    kind: 'acceptProposal',
    lines: [],
    changes: marks.map(({ note, lines }) => ({
      note: noteId(note),
      before: { lines: lines.map(lineId), from: 'proposal', confidence: null },
      after: { lines: lines.map(lineId), from: 'proposal', confidence: unsure.has(note) ? 0.3 : 0.95 },
    })),
  };
}

const sitDown = (size: 'desktop' | 'phone' = 'desktop'): Promise<TablePage> =>
  sitDownAt(browser, api, course.owner, `${songId}/table`, size);

/** The digit that names a line. */
async function digitOf(line: string): Promise<string> {
  const { lines } = await snapshotNow();
  const inOrder = [...lines].sort((a, b) => (a.orderKey < b.orderKey ? -1 : 1));
  return String(inOrder.findIndex(({ id }) => id === line) + 1);
}

const heard = (page: Page) => page.locator('p[role="status"]');
const dotted = (page: Page) => page.locator('ellipse[stroke-dasharray="0.1 3.6"]');
const linesOf = async (note: string | undefined): Promise<MarkNow | undefined> =>
  (await marksNow()).find((mark) => mark.note === note);

test('a key walks through what is unsure, round and round, with what is known of it; another says that it is right', async () => {
  const { page, errors, close } = await sitDown();
  await page.getByText('2 notes unsure', { exact: true }).waitFor();
  await expect.poll(() => page.locator('[data-unsure]').count()).toBe(2);
  await page.keyboard.press('n');
  await page.getByText(/^Bar 1, beat 3, B3, (melody|bass)$/).waitFor();
  expect(await heard(page).textContent()).toMatch(/^Unsure: right about 3 times in 10\. \S.*\.$/);
  await page.keyboard.press('n');
  await page.getByText(/^Bar 2, beat 2, /).waitFor();
  await page.keyboard.press('n');
  await page.getByText(/^Bar 1, beat 3, B3, (melody|bass)$/).waitFor();
  await page.keyboard.press('y');
  await page.getByText(/^Bar 2, beat 2, /).waitFor();
  await page.getByText('1 note unsure', { exact: true }).waitFor();
  await expect.poll(async () => (await linesOf(between[0]))?.from).toBe('person');
  expect((await linesOf(between[0]))?.lines).toEqual([own]);
  await page.keyboard.press('Control+z');
  await page.getByText('2 notes unsure', { exact: true }).waitFor();
  expect(errors).toEqual([]);
  await close();
});

test('after a correction the browser itself works out what follows; it is ringed, taken in one step and taken back in one', async () => {
  const { page, errors, close } = await sitDown();
  const asked: string[] = [];
  page.on('request', (request) => asked.push(new URL(request.url()).pathname));
  const [upper, lower] = await marksNow();
  const [above, below] = [upper?.lines[0] ?? '', lower?.lines[0] ?? ''];
  expect(above).not.toBe(below);
  await page.getByRole('application').focus();
  await page.keyboard.press('Home');
  await page.keyboard.press(await digitOf(below));
  await page
    .getByText(/^\d+ other notes? would follow: bars? 1/)
    .first()
    .waitFor();
  await expect.poll(() => dotted(page).count()).toBeGreaterThan(0);
  expect((await linesOf(lower?.note))?.lines).toEqual([below]);
  await page.keyboard.press('f');
  await expect.poll(async () => (await linesOf(lower?.note))?.lines).toEqual([above]);
  const people = (await marksNow()).filter(({ from }) => from === 'person').map(({ note }) => note);
  expect(people).toEqual([upper?.note]);
  await page.keyboard.press('Control+z');
  await expect.poll(async () => (await linesOf(lower?.note))?.lines).toEqual([below]);
  expect((await linesOf(upper?.note))?.lines).toEqual([below]);
  expect(asked.filter((path) => path.endsWith('/split/proposal'))).toEqual([]);
  expect(errors).toEqual([]);
  await close();
});

test('the same is done in the bars like this one: shown first, then one person’s mark, and one step back', async () => {
  const { page, errors, close } = await sitDown();
  await page.keyboard.press('n');
  await page.getByText(/^Bar 1, beat 3, B3, (melody|bass)$/).waitFor();
  await page.keyboard.press(await digitOf(meant));
  await page.getByRole('button', { name: 'Do the same in bars 3, 5 and 7' }).waitFor();
  await page.keyboard.press('d');
  await page.getByText('3, 5, 7 exactly alike.', { exact: true }).waitFor();
  await expect.poll(() => dotted(page).count()).toBe(3);
  await page.keyboard.press('d');
  const places = async () => (await marksNow()).filter(({ note }) => between.includes(note));
  await expect
    .poll(async () => (await places()).map(({ lines, from }) => `${lines.join()} ${from}`))
    .toEqual(between.map(() => `${meant} person`));
  await page.keyboard.press('Control+z');
  await expect.poll(async () => (await places()).filter(({ lines }) => lines.includes(meant))).toHaveLength(1);
  expect(errors).toEqual([]);
  await close();
});

test('a browser that cannot work proposals out says so in a sentence and loses nothing', async () => {
  const { page, close } = await sitDown();
  await page.route(/proposer-worker/, (route) => route.abort());
  await page.getByRole('button', { name: 'Propose again' }).click();
  await page.getByText(/could not be worked out in this browser. Your marks are kept/).waitFor();
  await page.unroute(/proposer-worker/);
  await page.getByRole('button', { name: 'Propose again' }).click();
  await page
    .getByText(/would follow|Nothing would change/)
    .first()
    .waitFor();
  expect(await marksNow()).toHaveLength(52);
  await close();
});

test.each(['desktop', 'phone'] as const)('all of it by buttons, and axe finds nothing on the way: %s', async (size) => {
  const { page, errors, close } = await sitDown(size);
  await page.getByRole('button', { name: 'Walk to the next one' }).click();
  await page.getByText(/^Bar 1, beat 3, B3, (melody|bass)$/).waitFor();
  expect(await barriersOn(page)).toEqual([]);
  const name = (await snapshotNow()).lines.find(({ id }) => id === meant)?.name ?? '';
  await page.getByRole('button', { name: new RegExp(`^${name} \\d+ notes`) }).click();
  await page.getByRole('button', { name: /^Do the same in / }).click();
  await page.getByRole('button', { name: 'Mark them' }).waitFor();
  expect(await barriersOn(page)).toEqual([]);
  await page.getByRole('button', { name: 'Mark them' }).click();
  await expect.poll(async () => (await marksNow()).filter(({ from }) => from === 'person')).toHaveLength(4);
  await page.getByRole('button', { name: 'Ribbons' }).click();
  await page.locator('[data-ribbons] [data-unsure]').first().waitFor();
  expect(await barriersOn(page)).toEqual([]);
  expect(errors).toEqual([]);
  await close();
});
