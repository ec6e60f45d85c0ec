import { io } from 'socket.io-client';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { lessonDetail, orderedOperation, songDetail, splitSnapshot } from '../../contract/index.ts';
import { InvitationsService } from '../../api/courses/invitations.service.ts';
import { startApp, type TestApp } from '../support/app.ts';
import { makeCourse, songOf, splitOf, type TestCourse } from '../support/course.ts';
import { makeLesson, releaseLesson, smallSteps } from '../support/lesson.ts';
import { TableClient } from '../support/table-client.ts';
import { tinyScore } from '../support/tiny-score.ts';

let api: TestApp;
let course: TestCourse;
let elsewhere: TestCourse;
beforeAll(async () => {
  api = await startApp();
  course = await makeCourse(api);
  elsewhere = await makeCourse(api);
});
afterAll(() => api.stop());

const marking = (note: string, lines: readonly string[], id = `mark-${note}-${lines.join()}`) => ({
  id,
  baseRevision: 1,
  operation: {
    kind: 'markNotes',
    changes: [
      {
        note,
        before: { lines: [], from: 'proposal', confidence: null },
        after: { lines, from: 'person', confidence: null },
      },
    ],
  },
});

describe('names of another course in one’s own request', () => {
  it('lines of another song are unknown to marks, and to lessons when they are released', async () => {
    const theirs = (await splitOf(elsewhere)).lines[0]!.id;
    const at = `/api/songs/${course.songId}/split/operations`;
    (await course.owner.as.post(at, marking('n1', [theirs]))).refused(422, 'operation-unknown-line');
    const steps = await smallSteps(elsewhere);
    const lesson = (await course.owner.as.post(`/api/songs/${course.songId}/lessons`, { title: 'Mixed', steps }))
      .expect(201)
      .as(lessonDetail);
    (await course.owner.as.post(`/api/lessons/${lesson.id}/releases`)).refused(422, 'operation-unknown-line');
  });

  it('parts that the score has not are refused', async () => {
    const at = `/api/songs/${course.songId}`;
    (await course.owner.as.patch(at, { arrangementParts: ['P1', 'P77'] })).refused(400, 'body-invalid');
    expect((await songOf(course)).arrangementParts).toEqual(['P1']);
  });

  it('lessons of another course cannot be put into this one’s order', async () => {
    const [own, theirs] = [await makeLesson(course), await makeLesson(elsewhere)];
    for (const lessonIds of [[theirs.id], [own.id, theirs.id], [own.id, own.id]]) {
      const answer = await course.owner.as.put(`/api/courses/${course.courseId}/lesson-order`, { lessonIds });
      answer.refused(412, 'changed-meanwhile');
    }
  });

  it('tries at a release of another course are not taken', async () => {
    const release = await releaseLesson(elsewhere, (await makeLesson(elsewhere)).id);
    const attempt = { stepId: 'bars', pathStepId: 'sing', outcome: 'sang' };
    (await course.student.as.post(`/api/releases/${release.id}/attempts`, attempt)).refused(404, 'not-found');
    (await course.owner.as.delete(`/api/courses/${course.courseId}/people/${elsewhere.student.person.id}`)).refused(
      404,
      'not-found',
    );
  });
});

it('a released lesson that was read before is not read again by who is no member any more', async () => {
  const own = await makeCourse(api);
  const at = `/api/releases/${(await releaseLesson(own, (await makeLesson(own)).id)).id}`;
  const first = (await own.student.as.get(at)).expect(200);
  expect((await own.student.as.get(at)).expect(200).text).toBe(first.text);
  (await own.owner.as.delete(`/api/courses/${own.courseId}/people/${own.student.person.id}`)).expect(204);
  (await own.student.as.get(at)).refused(404, 'not-found');
});

describe('a table', () => {
  const refused = (headers: Record<string, string>): Promise<string> =>
    new Promise((resolve) => {
      const socket = io(api.origin, {
        path: '/socket',
        transports: ['websocket'],
        extraHeaders: headers,
        reconnection: false,
        forceNew: true,
      });
      socket.once('connect', () => resolve('let in'));
      socket.once('connect_error', (error) => resolve(error.message));
      socket.once('disconnect', () => socket.close());
    });

  it('lets in a program without a page and our own page, and no page of another site', async () => {
    const { cookie } = course.owner.as;
    expect(await refused({ cookie })).toBe('let in');
    expect(await refused({ cookie, origin: api.origin })).toBe('let in');
    for (const origin of ['https://elsewhere.example', 'null', `${api.origin}.elsewhere.example`])
      expect(await refused({ cookie, origin })).not.toBe('let in');
  });

  it('does not know the cookie of a session that was signed out', async () => {
    const { as } = await api.person('Passing');
    const { cookie } = as;
    (await as.post('/api/auth/sign-out')).expect(200);
    expect(await refused({ cookie })).toBe('not-signed-in');
    (await api.stranger().get('/api/me', { cookie })).refused(401, 'not-signed-in');
  });

  it('ends the connection of who sends more than it takes', async () => {
    const table = await TableClient.open(course.owner.as);
    table.send({ type: 'join', fill: 'x'.repeat(300_000) });
    expect(await table.closed()).toMatch(/transport|parse/);
  });
});

describe('hostile text', () => {
  const words = `Robert'); DROP TABLE song;-- <script>alert(1)</script> \${7*7} %s`;

  it('stays the text that it is', async () => {
    const made = (await course.owner.as.post(`/api/courses/${course.courseId}/songs`, { title: words }))
      .expect(201)
      .as(songDetail);
    expect((await course.coTeacher.as.get(`/api/songs/${made.id}`)).as(songDetail).title).toBe(words);
  });

  it.each([
    ['a null character', 'A\u0000B'],
    ['half of a pair', 'A\ud800B'],
  ])('with %s is refused wherever it would be kept', async (_, text) => {
    const { as } = course.owner;
    const steps = [{ kind: 'text', id: 'words', text }];
    const line = { id: 'odd', name: text, role: 'bass', dye: 'weld', letter: 'O', orderKey: 'z', isRetired: false };
    for (const [path, body] of [
      ['/api/courses', { title: text }],
      [`/api/courses/${course.courseId}/songs`, { title: text }],
      [`/api/songs/${course.songId}/lessons`, { title: 'Odd', steps }],
      [
        `/api/songs/${course.songId}/split/operations`,
        { id: 'odd', baseRevision: 1, operation: { kind: 'makeLine', line } },
      ],
      [`/api/songs/${course.songId}/split/operations`, { ...marking('n1', []), id: text }],
      [`/api/courses/${course.courseId}/invitations`, { email: `${text}@example.org` }],
      ['/api/enrolments', { code: `${text}WEFT` }],
      ['/api/auth/sign-in/email', { email: `${text}@example.org`, password: text.padEnd(12, 'x') }],
    ] as const) {
      const answer = await as.post(path, body);
      expect([path, [400, 401, 404].includes(answer.status), answer.text]).toEqual([path, true, answer.text]);
    }
  });

  it('nested without end is refused quickly', async () => {
    const started = performance.now();
    const deep = '['.repeat(100_000) + ']'.repeat(100_000);
    (await course.owner.as.post('/api/courses', deep)).refused(400, 'body-invalid');
    (await course.owner.as.post('/api/courses', `{"title":"x","summary":${deep}}`)).refused(400, 'body-invalid');
    expect(performance.now() - started).toBeLessThan(3000);
  });

  it.each([
    '../../etc/passwd.musicxml',
    '..\\..\\windows\\a.musicxml',
    '/abs/a.musicxml',
    'a\r\nset-cookie: x=y.musicxml',
    'ünïcödé 音.musicxml',
    '"quoted"; filename=b.musicxml',
  ])('in the name of a file leads nowhere: %j', async (name) => {
    const { id } = (await course.owner.as.post(`/api/courses/${course.courseId}/songs`, { title: 'Named' }))
      .expect(201)
      .as(songDetail);
    const headers = { 'content-type': 'application/octet-stream', 'x-file-name': encodeURIComponent(name) };
    (await course.owner.as.post(`/api/songs/${id}/score`, tinyScore(['E2 G3 B3 E4']), headers)).expect(201);
    const original = (await course.owner.as.get(`/api/songs/${id}/score/original`)).expect(200);
    expect(original.headers.get('set-cookie')).toBeNull();
    expect(original.headers.get('content-disposition')).toMatch(/^attachment; filename\*=UTF-8''[\w.!~*'()%-]+$/);
    expect(original.headers.get('content-disposition')).not.toMatch(/%2F|%5C|%0D|%0A/i);
  });
});

describe('at the same moment', () => {
  it('the same operation twice is written once, and both get the same answer', async () => {
    const own = await makeCourse(api);
    const at = `/api/songs/${own.songId}/split/operations`;
    const [line] = (await splitOf(own)).lines;
    const answers = await Promise.all(
      Array.from({ length: 6 }, () => own.owner.as.post(at, marking('n2', [line!.id], 'once'))),
    );
    expect(new Set(answers.map((answer) => answer.expect(201).as(orderedOperation).revision))).toEqual(new Set([2]));
    expect((await splitOf(own)).revision).toBe(2);
  });

  it('two releases of one lesson are one', async () => {
    const { id } = await makeLesson(course);
    const made = await Promise.all([1, 2, 3].map(() => releaseLesson(course, id)));
    expect(new Set(made.map((release) => release.id)).size).toBe(1);
  });

  it('one invitation lets one person in', async () => {
    const { link } = await api.app
      .get(InvitationsService)
      .invite(course.owner.person, course.courseId, { email: 'x@example.org' });
    const token = link.slice(link.lastIndexOf('/') + 1);
    const people = await Promise.all(['One', 'Two', 'Three'].map((name) => api.person(`Guest ${name}`)));
    const answers = await Promise.all(people.map(({ as }) => as.post(`/api/invitations/${token}/acceptance`)));
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 410, 410]);
  });

  it('two uploads of the same file are two versions, one after the other', async () => {
    const own = await makeCourse(api);
    const bytes = tinyScore(['E2 G3 B3 E4', 'A2 C4 E4 A4']);
    const uploads = await Promise.all(
      [1, 2].map(() => own.owner.as.upload(`/api/songs/${own.songId}/score`, 'a.xml', bytes)),
    );
    expect(uploads.map((answer) => (answer.expect(201).json as { version: number }).version).sort()).toEqual([2, 3]);
  });
});

it('a score is kept and told of though its first proposal fails', async () => {
  const failing = await startApp({ environment: { HEDDLE_LOG_LEVEL: 'silent' } });
  try {
    const { person, as } = await failing.person('Unlucky');
    const { id: courseId } = await failing.desk.courses.make(person, { title: 'Course', summary: '' });
    const { id } = await failing.desk.songs.make(person, courseId, { title: 'Song', composer: '' });
    failing.desk.proposals.propose = () => Promise.reject(new Error('The proposal failed'));
    const bytes = tinyScore(['E2 G3 B3 E4']);
    const told = (await as.upload(`/api/songs/${id}/score`, 'kept.musicxml', bytes)).expect(201).json;
    expect(told).toMatchObject({ version: 1 });
    expect(told).toHaveProperty('issues', expect.arrayContaining([expect.objectContaining({ code: 'not-split-yet' })]));
    expect((await as.get(`/api/songs/${id}/score/original`)).expect(200).text).toBe(new TextDecoder().decode(bytes));
    expect((await as.get(`/api/songs/${id}/split`)).json).toMatchObject({ revision: 0, marks: [] });
  } finally {
    await failing.stop();
  }
});

it.each(['is proposed for', 'fails to be proposed for'])(
  'an upload that a newer one overtakes while it %s ends quietly, and the newer one is split once',
  async (way) => {
    const racing = await startApp({ environment: { HEDDLE_LOG_LEVEL: 'silent' } });
    try {
      const { person, as } = await racing.person('Hasty');
      const { id: courseId } = await racing.desk.courses.make(person, { title: 'Course', summary: '' });
      const { id } = await racing.desk.songs.make(person, courseId, { title: 'Song', composer: '' });
      const upload = (bytes: Uint8Array) => as.upload(`/api/songs/${id}/score`, 'a.musicxml', bytes);
      const { proposals } = racing.desk;
      const propose = proposals.propose.bind(proposals);
      let newer: unknown = null;
      proposals.propose = async (...wish) => {
        const made = await propose(...wish);
        if (newer !== null) return made;
        newer = 'on its way';
        newer = (await upload(tinyScore(['C5 - D5 -']))).expect(201).json;
        if (way.startsWith('fails')) throw new Error('The score has no such note');
        return made;
      };
      const older = (await upload(tinyScore(['E2 G3 B3 E4']))).expect(201).json;
      const codes = [older, newer].map((told) =>
        (told as { issues: { code: string }[] }).issues.map(({ code }) => code),
      );
      expect(codes.flat()).not.toContain('not-split-yet');
      const { revision, marks } = splitSnapshot.parse((await as.get(`/api/songs/${id}/split`)).json);
      expect([revision, marks.length]).toEqual([1, 2]);
    } finally {
      await racing.stop();
    }
  },
);
