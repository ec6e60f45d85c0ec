import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { SystemClock } from '../../api/index.ts';
import { releaseContent } from '../../contract/index.ts';
import {
  activeLines,
  linesOfNote,
  readNormalised,
  splitFromSnapshot,
  ticksOfExcerpt,
  type Score,
  type Split,
} from '../../music/index.ts';
import { demoCourse } from '../../seed/course/demo-course.ts';
import { demoPieces } from '../../seed/demo-pieces.ts';
import { loadDemo, type LoadedDemo } from '../../seed/load-demo.ts';
import { trueMarks } from '../../seed/true-marks.ts';
import { startApp, type TestApp } from '../support/app.ts';

let app: TestApp;
let loaded: LoadedDemo;
let courseId: string;

beforeAll(async () => {
  app = await startApp();
  loaded = await loadDemo(app.desk, new SystemClock());
  courseId = (await app.desk.courses.shelf(loaded.student)).courses[0]!.id;
});

afterAll(async () => {
  await app.stop();
});

interface Song {
  readonly score: Score;
  readonly split: Split;
}

async function song(title: string): Promise<Song> {
  const { songs } = await app.desk.courses.detail(loaded.teacher, courseId);
  const { id } = songs.find((candidate) => candidate.title === title)!;
  const { xml } = await app.desk.scores.normalised(loaded.teacher, id);
  return {
    score: readNormalised(xml).value,
    split: splitFromSnapshot(await app.desk.splits.snapshot(loaded.teacher, id)),
  };
}

describe('the demo in a database', () => {
  it('is one course with two songs, two lessons, one of them released, and three people', async () => {
    const course = await app.desk.courses.detail(loaded.teacher, courseId);
    expect([course.title, course.role]).toEqual([demoCourse.title, 'owner']);
    expect(course.songs.map(({ title, hasScore }) => [title, hasScore])).toEqual(
      demoPieces().map(({ title }) => [title, true]),
    );
    expect(course.lessons.map(({ title, releasedAt }) => [title, releasedAt !== null])).toEqual([
      ['A tune and what carries it', true],
      ['Four lines at once', false],
    ]);
    expect(course.peopleCount).toBe(3);
  });

  it('marks every note of the first song as its rows tell, by a person', async () => {
    const { score, split } = await song('The Weir at Low Water');
    const lines = activeLines(split);
    expect(lines.map(({ name, role, letter }) => [name, role, letter])).toEqual([
      ['Melody', 'melody', 'M'],
      ['Middle voice', 'middle', 'V'],
      ['Bass', 'bass', 'B'],
      ['Taps', 'percussion', 'P'],
    ]);
    const letterOf = new Map(lines.map(({ id, letter }) => [id, letter]));
    const { marks } = trueMarks(demoPieces()[0]!.piece, score);
    const wrong = score.notes.filter(
      ({ id }) =>
        linesOfNote(split, id)
          .map((line) => letterOf.get(line))
          .join() !== marks.get(id)!.join(),
    );
    expect(wrong).toEqual([]);
    expect(score.notes.every(({ id }) => split.marks.get(id)?.from === 'person')).toBe(true);
  });

  it('leaves the second song as the tool proposed it, with a confidence for each note', async () => {
    const { score, split } = await song('Two Candles');
    expect(activeLines(split).length).toBeGreaterThanOrEqual(2);
    expect(
      score.notes.every(
        ({ id }) => split.marks.get(id)?.from === 'proposal' && split.marks.get(id)?.confidence !== null,
      ),
    ).toBe(true);
  });

  it('lets the student read the released lesson, whose steps name lines and bars that it holds', async () => {
    const course = await app.desk.courses.detail(loaded.student, courseId);
    expect(course.releases.map(({ title }) => title)).toEqual(['A tune and what carries it']);
    const found = await app.desk.releases.find(loaded.student, course.releases[0]!.id);
    const content = releaseContent.parse(JSON.parse((await app.desk.releases.contentOf(found)).toString()));
    const score = readNormalised(content.musicXml).value;
    const lineIds = content.lines.map(({ id }) => id);
    const listening = content.steps.filter((step) => step.kind === 'listen');
    expect(listening.length).toBe(3);
    for (const step of listening) {
      expect(ticksOfExcerpt(score, step.excerpt)).not.toBeNull();
      for (const { lines } of step.path) expect(lineIds).toEqual(expect.arrayContaining(lines));
    }
    const kinds = new Set(listening.flatMap((step) => step.path.map(({ kind }) => kind)));
    expect([...kinds].sort()).toEqual(['echo', 'fade', 'hear', 'reveal']);
  });

  it('begins its phrases on upbeats', async () => {
    const { score } = await song('The Weir at Low Water');
    const { lessons } = await app.desk.courses.detail(loaded.teacher, courseId);
    const second = await app.desk.lessons.detail(loaded.teacher, lessons[1]!.id);
    const starts = second.steps.flatMap((step) => (step.kind === 'listen' ? [step.excerpt.from] : []));
    expect(starts.map(({ bar, offset }) => [score.bars.find(({ id }) => id === bar)!.label, offset.numerator])).toEqual(
      [
        ['43', 3],
        ['47', 3],
      ],
    );
  });

  it('is touched no more once it is there', async () => {
    const before = await app.desk.courses.detail(loaded.teacher, courseId);
    const again = await loadDemo(app.desk, new SystemClock());
    expect(again.isNew).toBe(false);
    expect(await app.desk.courses.detail(loaded.teacher, courseId)).toEqual(before);
    expect((await app.desk.courses.shelf(loaded.teacher)).courses).toHaveLength(1);
  });
});

describe('loading that broke off', () => {
  it('goes on from where it stopped and makes nothing twice', async () => {
    const other = await startApp();
    const release = (): Promise<never> => Promise.reject(new Error('the power went'));
    const broken = { ...other.desk, releases: { release } } as unknown as typeof other.desk;
    await expect(loadDemo(broken, new SystemClock())).rejects.toThrow('the power went');
    const resumed = await loadDemo(other.desk, new SystemClock());
    expect(resumed.isNew).toBe(true);
    const [course, ...more] = (await other.desk.courses.shelf(resumed.student)).courses;
    expect(more).toEqual([]);
    expect([course?.songCount, course?.lessonCount, course?.releaseCount, course?.peopleCount]).toEqual([2, 2, 1, 3]);
    await other.stop();
  });
});
