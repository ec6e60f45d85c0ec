import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { lessonDetail, ownMixes, plainPlaying, releaseDetail, songSound } from '../../contract/index.ts';
import { startApp, type TestApp } from '../support/app.ts';
import type { Caller } from '../support/caller.ts';
import { makeCourse, splitOf, type TestCourse } from '../support/course.ts';
import { makeLesson, releaseLesson, smallSteps } from '../support/lesson.ts';

let api: TestApp;
let course: TestCourse;
beforeAll(async () => {
  api = await startApp();
  course = await makeCourse(api);
});
afterAll(() => api.stop());

const plain = { levelDb: 0, tone: 0, place: 0, isSolo: false, isMuted: false };
const mix = (id: string, ...lines: readonly string[]) => ({
  id,
  name: `Mix ${id}`,
  lines: lines.map((line) => ({ ...plain, line, levelDb: -6, instrument: 'hum' })),
  forward: lines[0] ?? null,
});
const accents = { ...plainPlaying, expression: { ...plainPlaying.expression, stressPercent: 150 } };
const putting = (by: Caller, path: string, body: unknown, etag: string | null) =>
  by.put(path, body, etag === null ? {} : { 'if-match': etag });

describe('the sound of a song', () => {
  it('is plain before anybody touches it, and kept by its version for all its teachers', async () => {
    const own = await makeCourse(api);
    const at = `/api/songs/${own.songId}/sound`;
    const first = (await own.coTeacher.as.get(at)).expect(200);
    expect(first.as(songSound)).toEqual({ playing: plainPlaying, mixes: [] });
    expect(first.headers.get('etag')).toBe('"0"');
    const wish = { playing: accents, mixes: [mix('a', 'l1'), mix('b')] };
    const kept = (await putting(own.coTeacher.as, at, wish, '"0"')).expect(200);
    expect([kept.json, kept.headers.get('etag')]).toEqual([wish, '"1"']);
    expect((await own.owner.as.get(at)).json).toEqual(wish);
  });

  it('is not written over a colleague’s change, nor without saying what was seen', async () => {
    const own = await makeCourse(api);
    const at = `/api/songs/${own.songId}/sound`;
    const both = await Promise.all(
      [own.owner, own.coTeacher].map(({ as }, index) =>
        putting(as, at, { playing: plainPlaying, mixes: [mix(`by ${index}`)] }, '"0"'),
      ),
    );
    expect(both.map(({ status }) => status).sort()).toEqual([200, 412]);
    const empty = { playing: plainPlaying, mixes: [] };
    (await putting(own.owner.as, at, empty, '"0"')).refused(412, 'changed-meanwhile');
    (await putting(own.owner.as, at, empty, '"9"')).refused(412, 'changed-meanwhile');
    (await putting(own.owner.as, at, empty, null)).refused(428, 'precondition-missing');
    expect((await own.owner.as.get(at)).as(songSound).mixes).toHaveLength(1);
  });

  it.each([
    [
      'a level that would hurt',
      { playing: plainPlaying, mixes: [{ ...mix('a'), lines: [{ ...plain, line: 'l', levelDb: 40 }] }] },
    ],
    [
      'an instrument that is none',
      { playing: plainPlaying, mixes: [{ ...mix('a'), lines: [{ ...plain, line: 'l', instrument: 'kazoo' }] }] },
    ],
    ['a line twice', { playing: plainPlaying, mixes: [mix('a', 'l', 'l')] }],
    ['two mixes with one id', { playing: plainPlaying, mixes: [mix('a'), mix('a')] }],
    ['a mix without a name', { playing: plainPlaying, mixes: [{ ...mix('a'), name: ' ' }] }],
    [
      'stress beyond twice as written',
      { playing: { ...accents, expression: { ...accents.expression, stressPercent: 201 } }, mixes: [] },
    ],
    ['no playing', { mixes: [] }],
  ])('refuses %s', async (_what, body) => {
    (await putting(course.owner.as, `/api/songs/${course.songId}/sound`, body, '"0"')).refused(400, 'body-invalid');
  });

  it('is frozen in a release: how it is played, and the step’s mixes without lines that are gone', async () => {
    const own = await makeCourse(api);
    const [first] = (await splitOf(own)).lines;
    const [text, listen] = (await smallSteps(own)) as [object, object];
    const steps = [text, { ...listen, mixes: [mix('a', first!.id, 'gone'), mix('b', 'gone')] }];
    const lesson = (await own.owner.as.post(`/api/songs/${own.songId}/lessons`, { title: 'Mixed', steps }))
      .expect(201)
      .as(lessonDetail);
    const before = await releaseLesson(own, lesson.id);
    expect(before.content.playing).toEqual(plainPlaying);
    const told = before.content.steps.find((step) => step.kind === 'listen');
    expect(told?.mixes.map(({ lines, forward }) => [lines.map(({ line }) => line), forward])).toEqual([
      [[first!.id], first!.id],
      [[], null],
    ]);
    const at = `/api/songs/${own.songId}/sound`;
    const changed = async () =>
      (await own.owner.as.get(`/api/lessons/${lesson.id}`)).as(lessonDetail).hasChangesSinceRelease;
    await putting(own.owner.as, at, { playing: plainPlaying, mixes: [mix('a')] }, '"0"');
    expect(await changed()).toBe(false);
    await putting(own.owner.as, at, { playing: accents, mixes: [] }, '"1"');
    expect(await changed()).toBe(true);
    const after = await releaseLesson(own, lesson.id);
    expect([after.number, after.content.playing, await changed()]).toEqual([2, accents, false]);
    expect((await own.student.as.get(`/api/releases/${before.id}`)).as(releaseDetail).content.playing).toEqual(
      plainPlaying,
    );
  });
});

describe('one’s own mixes', () => {
  it('are each person’s, and found again in the lesson’s next release', async () => {
    const lesson = await makeLesson(course);
    const first = await releaseLesson(course, lesson.id);
    const at = (releaseId: string) => `/api/releases/${releaseId}/own-mixes`;
    expect((await course.student.as.get(at(first.id))).expect(200).as(ownMixes)).toEqual({ mixes: [] });
    const kept = (await putting(course.student.as, at(first.id), { mixes: [mix('a', 'l1')] }, '"0"')).expect(200);
    expect([kept.json, kept.headers.get('etag')]).toEqual([{ mixes: [mix('a', 'l1')] }, '"1"']);
    expect((await course.owner.as.get(at(first.id))).as(ownMixes).mixes).toEqual([]);
    await course.owner.as.patch(`/api/lessons/${lesson.id}`, { title: 'Anew' }, { 'if-match': '"1"' });
    const second = await releaseLesson(course, lesson.id);
    expect(second.id).not.toBe(first.id);
    expect((await course.student.as.get(at(second.id))).json).toEqual({ mixes: [mix('a', 'l1')] });
  });

  it('are not written over what was kept elsewhere, and refused where they are none', async () => {
    const { id } = await releaseLesson(course, (await makeLesson(course)).id);
    const at = `/api/releases/${id}/own-mixes`;
    const both = await Promise.all(
      ['a', 'b'].map((name) => putting(course.student.as, at, { mixes: [mix(name)] }, '"0"')),
    );
    expect(both.map(({ status }) => status).sort()).toEqual([200, 412]);
    (await putting(course.student.as, at, { mixes: [] }, null)).refused(428, 'precondition-missing');
    (await putting(course.student.as, at, { mixes: [mix('a'), mix('a')] }, '"1"')).refused(400, 'body-invalid');
    const absent = '/api/releases/01a00000-0000-7000-8000-000000000000/own-mixes';
    (await course.student.as.get(absent)).refused(404, 'not-found');
    (await putting(course.student.as, absent, { mixes: [] }, '"0"')).refused(404, 'not-found');
  });
});
