import { createHash } from 'node:crypto';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { courseDetail, lessonDetail, releaseDetail } from '../../contract/index.ts';
import { canonicalJson } from '../../api/lessons/canonical-json.ts';
import { startApp, type TestApp } from '../support/app.ts';
import { makeCourse, splitOf, type TestCourse } from '../support/course.ts';
import { makeLesson, releaseLesson, smallSteps } from '../support/lesson.ts';
import { tinyScore } from '../support/tiny-score.ts';

let api: TestApp;
let course: TestCourse;
beforeAll(async () => {
  api = await startApp();
  course = await makeCourse(api);
});
afterAll(() => api.stop());

describe('a lesson', () => {
  it('is made, seen and changed by the version that was seen', async () => {
    const lesson = await makeLesson(course, 'Two voices');
    const seen = await course.coTeacher.as.get(`/api/lessons/${lesson.id}`);
    expect(seen.expect(200).as(lessonDetail)).toEqual(lesson);
    expect(seen.headers.get('etag')).toBe('"1"');
    const changed = await course.coTeacher.as.patch(
      `/api/lessons/${lesson.id}`,
      { title: 'Three voices' },
      { 'if-match': '"1"' },
    );
    expect(changed.expect(200).as(lessonDetail)).toMatchObject({
      title: 'Three voices',
      version: 2,
      steps: lesson.steps,
    });
    expect(changed.headers.get('etag')).toBe('"2"');
  });

  it('is not written over a colleague’s change, nor without saying what was seen', async () => {
    const lesson = await makeLesson(course);
    const at = `/api/lessons/${lesson.id}`;
    (await course.owner.as.patch(at, { title: 'First' }, { 'if-match': '"1"' })).expect(200);
    (await course.coTeacher.as.patch(at, { title: 'Second' }, { 'if-match': '"1"' })).refused(412, 'changed-meanwhile');
    (await course.coTeacher.as.patch(at, { title: 'Second' }, { 'if-match': '"one"' })).refused(
      412,
      'changed-meanwhile',
    );
    (await course.coTeacher.as.patch(at, { title: 'Second' })).refused(428, 'precondition-missing');
    (await course.coTeacher.as.patch(at, { title: 'Second' }, { 'if-match': '*' })).refused(
      428,
      'precondition-missing',
    );
    (await course.owner.as.patch(at, { title: '' }, { 'if-match': '"2"' })).refused(400, 'body-invalid');
    expect((await course.owner.as.get(at)).as(lessonDetail).title).toBe('First');
  });

  it('of two changes at the same moment takes exactly one', async () => {
    const lesson = await makeLesson(course);
    const answers = await Promise.all(
      [course.owner, course.coTeacher].map(({ as }, index) =>
        as.patch(`/api/lessons/${lesson.id}`, { title: `By ${index}` }, { 'if-match': '"1"' }),
      ),
    );
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 412]);
  });

  it('holds its steps to their form', async () => {
    const [, listen] = (await smallSteps(course)) as { path: unknown[] }[];
    const broken = {
      ...listen,
      path: [{ kind: 'fade', id: 'x', title: 'x', lines: [], fading: 'y', passes: 1, view: 'sideways' }],
    };
    const { issues } = (
      await course.owner.as.post(`/api/songs/${course.songId}/lessons`, { title: 'x', steps: [broken] })
    ).refused(400, 'body-invalid');
    expect(JSON.stringify(issues)).toContain('steps.0.path.0');
  });

  it('has its place among the others, which only all together can change', async () => {
    const own = await makeCourse(api);
    const [one, two, three] = [
      await makeLesson(own, 'One'),
      await makeLesson(own, 'Two'),
      await makeLesson(own, 'Three'),
    ];
    const at = `/api/courses/${own.courseId}/lesson-order`;
    (await own.coTeacher.as.put(at, { lessonIds: [three.id, one.id, two.id] })).expect(204);
    const seen = (await own.owner.as.get(`/api/courses/${own.courseId}`)).as(courseDetail);
    expect(seen.lessons.map(({ title, position }) => [title, position])).toEqual([
      ['Three', 1],
      ['One', 2],
      ['Two', 3],
    ]);
    (await own.owner.as.put(at, { lessonIds: [one.id, two.id] })).refused(412, 'changed-meanwhile');
    (await own.owner.as.put(at, { lessonIds: [one.id, one.id, two.id] })).refused(412, 'changed-meanwhile');
    (await own.owner.as.put(at, { lessonIds: 'all' })).refused(400, 'body-invalid');
    (await own.owner.as.delete(`/api/lessons/${one.id}`)).expect(204);
    (await own.owner.as.get(`/api/lessons/${one.id}`)).refused(404, 'not-found');
    (await own.owner.as.delete(`/api/lessons/${one.id}`)).refused(404, 'not-found');
  });
});

describe('a release', () => {
  it('is the very content whose hash it carries, with the notes of the split and nobody’s name', async () => {
    const lesson = await makeLesson(course, 'Frozen');
    const release = await releaseLesson(course, lesson.id);
    expect(release).toMatchObject({ lessonId: lesson.id, courseId: course.courseId, number: 1 });
    const raw = (await course.student.as.get(`/api/releases/${release.id}`)).expect(200);
    const { content } = raw.json as { content: unknown };
    expect(createHash('sha256').update(canonicalJson(content)).digest('hex')).toBe(release.contentHash);
    const split = await splitOf(course);
    expect(new Map(release.content.marks)).toEqual(new Map(split.marks.map(([note, mark]) => [note, mark.lines])));
    expect(release.content).toMatchObject({
      schema: 1,
      title: 'Frozen',
      arrangementParts: ['P1'],
      lines: split.lines,
      steps: lesson.steps,
    });
    for (const person of [course.owner, course.coTeacher, course.student]) {
      expect(raw.text).not.toContain(person.person.email);
      expect(raw.text).not.toContain(person.person.name);
    }
  });

  it('does not follow later changes of lesson, split or score', async () => {
    const own = await makeCourse(api);
    const lesson = await makeLesson(own, 'Before');
    const release = await releaseLesson(own, lesson.id);
    const read = async () =>
      (await own.student.as.get(`/api/releases/${release.id}`)).expect(200).as(releaseDetail).content;
    const before = await read();
    await own.owner.as.patch(`/api/lessons/${lesson.id}`, { title: 'After' }, { 'if-match': '"1"' });
    const change = {
      note: 'n1',
      before: { lines: [], from: 'proposal', confidence: null },
      after: { lines: [], from: 'person', confidence: null },
    };
    (
      await own.owner.as.post(`/api/songs/${own.songId}/split/operations`, {
        id: 'loose',
        baseRevision: 1,
        operation: { kind: 'markNotes', changes: [change] },
      })
    ).expect(201);
    (await own.owner.as.upload(`/api/songs/${own.songId}/score`, 'other.musicxml', tinyScore(['C3 C3 C3 C3']))).expect(
      201,
    );
    expect(await read()).toEqual(before);
    expect((await own.owner.as.get(`/api/lessons/${lesson.id}`)).as(lessonDetail).hasChangesSinceRelease).toBe(true);
  });

  it('cannot be changed in the database either', async () => {
    const release = await releaseLesson(course, (await makeLesson(course)).id);
    const client = new pg.Client({ connectionString: api.databaseUrl });
    await client.connect();
    try {
      await expect(client.query('UPDATE release SET content = $2 WHERE id = $1', [release.id, '{}'])).rejects.toThrow(
        'never changed',
      );
    } finally {
      await client.end();
    }
  });

  it('is not made twice of the same content, and counts up with new content', async () => {
    const lesson = await makeLesson(course);
    const first = await releaseLesson(course, lesson.id);
    expect((await releaseLesson(course, lesson.id)).id).toBe(first.id);
    await course.owner.as.patch(`/api/lessons/${lesson.id}`, { title: 'Anew' }, { 'if-match': '"1"' });
    const second = await releaseLesson(course, lesson.id);
    expect([second.number, second.content.title]).toEqual([2, 'Anew']);
    const detail = (await course.owner.as.get(`/api/lessons/${lesson.id}`)).as(lessonDetail);
    expect(detail).toMatchObject({ hasChangesSinceRelease: false, latestRelease: { id: second.id, number: 2 } });
    expect(
      (await course.student.as.get(`/api/releases/${first.id}`)).expect(200).as(releaseDetail).content.title,
    ).not.toBe('Anew');
  });

  it('knows the released lessons before and after it, and goes out of reach with its lesson', async () => {
    const own = await makeCourse(api);
    const [one, hidden, three] = [
      await makeLesson(own, 'One'),
      await makeLesson(own, 'Hidden'),
      await makeLesson(own, 'Three'),
    ];
    const first = await releaseLesson(own, one.id);
    const last = await releaseLesson(own, three.id);
    expect(last).toMatchObject({ previous: { id: first.id, title: 'One' }, next: null });
    const seen = (await own.student.as.get(`/api/courses/${own.courseId}`)).expect(200).as(courseDetail);
    expect(seen.releases.map(({ title }) => title)).toEqual(['One', 'Three']);
    expect([seen.songs, seen.lessons]).toEqual([[], []]);
    const middle = await releaseLesson(own, hidden.id);
    expect((await own.student.as.get(`/api/releases/${first.id}`)).as(releaseDetail).next?.id).toBe(middle.id);
    (await own.owner.as.delete(`/api/lessons/${one.id}`)).expect(204);
    (await own.student.as.get(`/api/releases/${first.id}`)).refused(404, 'not-found');
    expect((await own.student.as.get(`/api/releases/${middle.id}`)).as(releaseDetail).previous).toBeNull();
  });

  it('answers with an ETag, and briefly to who has it', async () => {
    const release = await releaseLesson(course, (await makeLesson(course)).id);
    const first = (await course.student.as.get(`/api/releases/${release.id}`)).expect(200);
    const again = await course.student.as.get(`/api/releases/${release.id}`, {
      'if-none-match': first.headers.get('etag') ?? '',
    });
    expect([again.status, again.text]).toEqual([304, '']);
  });

  it('is refused for a lesson whose lines or bars are gone, and for a song without a score', async () => {
    const steps = JSON.stringify(await smallSteps(course));
    const line = (await splitOf(course)).lines[0]!.id;
    const make = async (text: string) =>
      (
        await course.owner.as.post(`/api/songs/${course.songId}/lessons`, {
          title: 'x',
          steps: JSON.parse(text) as unknown,
        })
      )
        .expect(201)
        .as(lessonDetail).id;
    const strayLine = await make(steps.replaceAll(line, 'nobody'));
    (await course.owner.as.post(`/api/lessons/${strayLine}/releases`)).refused(422, 'operation-unknown-line');
    const strayBar = await make(steps.replaceAll('"b1"', '"b99"'));
    expect(
      (await course.owner.as.post(`/api/lessons/${strayBar}/releases`)).refused(400, 'body-invalid').detail,
    ).toContain('bar');
    const { id: bare } = await api.desk.songs.make(course.owner.person, course.courseId, {
      title: 'Bare',
      composer: '',
    });
    const lesson = (await course.owner.as.post(`/api/songs/${bare}/lessons`, { title: 'Bare' }))
      .expect(201)
      .as(lessonDetail);
    (await course.owner.as.post(`/api/lessons/${lesson.id}/releases`)).refused(409, 'nothing-to-split');
  });
});
