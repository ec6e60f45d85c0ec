import { invitationMade, plainPlaying } from '../../contract/index.ts';
import { songOf, type TestCourse } from '../support/course.ts';
import { makeLesson, releaseLesson } from '../support/lesson.ts';
import { tinyScore } from '../support/tiny-score.ts';

/** Who may call: somebody not signed in, the owner of another course, and the three roles of this one. */
export const callers = ['stranger', 'other', 'student', 'coTeacher', 'owner'] as const;
type CallerName = (typeof callers)[number];

/** One call of a route, made anew for each caller. */
interface Call {
  readonly path: string;
  readonly body?: unknown;
  readonly headers?: Readonly<Record<string, string>>;
}

/** One route with what each caller is answered. */
export interface MatrixRow {
  /** As the OpenAPI document names it. */
  readonly route: string;
  readonly call: (course: TestCourse) => Call | Promise<Call>;
  readonly answers: Readonly<Record<CallerName, number>>;
}

const forAll = (status: number) => ({
  stranger: status,
  other: status,
  student: status,
  coTeacher: status,
  owner: status,
});
const signedIn = (status: number) => ({ ...forAll(status), stranger: 401 });
const members = (status: number) => ({ ...signedIn(status), other: 404 });
const teachers = (status: number) => ({ ...members(status), student: 403 });
const owners = (status: number) => ({ ...teachers(status), coTeacher: 403 });

const bytes = { 'content-type': 'application/octet-stream', 'x-file-name': 'new.xml' };
let names = 0;
const makeLine = () => {
  const id = `line-${(names += 1)}`;
  const line = { id, name: 'Hum', role: 'middle', dye: 'weld', letter: 'H', orderKey: 'z1', isRetired: false };
  return { id, baseRevision: 0, operation: { kind: 'makeLine', line } };
};
const released = async (course: TestCourse): Promise<string> =>
  (await releaseLesson(course, (await makeLesson(course)).id)).id;
const lessonPath = async (course: TestCourse, rest = ''): Promise<string> =>
  `/api/lessons/${(await makeLesson(course)).id}${rest}`;
const inSong =
  (rest: string) =>
  ({ songId }: TestCourse): Call => ({ path: `/api/songs/${songId}${rest}` });
const inCourse =
  (rest: string) =>
  ({ courseId }: TestCourse): Call => ({ path: `/api/courses/${courseId}${rest}` });

const noMaking = '/sound-files/01a00000-0000-7000-8000-000000000000';

/** Every route of the API. */
export const matrix: readonly MatrixRow[] = [
  { route: 'GET /healthz', call: () => ({ path: '/healthz' }), answers: forAll(200) },
  { route: 'GET /api/me', call: () => ({ path: '/api/me' }), answers: signedIn(200) },
  {
    route: 'PUT /api/me/password',
    call: () => ({ path: '/api/me/password', body: { password: 'x' } }),
    answers: signedIn(400),
  },
  {
    route: 'POST /api/sign-in-links/acceptance',
    call: () => ({ path: '/api/sign-in-links/acceptance', body: { token: 'x'.repeat(32) } }),
    answers: forAll(410),
  },
  { route: 'GET /api/shelf', call: () => ({ path: '/api/shelf' }), answers: signedIn(200) },
  { route: 'GET /api/courses', call: () => ({ path: '/api/courses' }), answers: signedIn(200) },
  {
    route: 'POST /api/courses',
    call: () => ({ path: '/api/courses', body: { title: 'Mine' } }),
    answers: signedIn(201),
  },
  { route: 'GET /api/courses/{id}', call: inCourse(''), answers: members(200) },
  {
    route: 'PATCH /api/courses/{id}',
    call: ({ courseId }) => ({ path: `/api/courses/${courseId}`, body: { title: 'New' } }),
    answers: teachers(200),
  },
  { route: 'GET /api/courses/{id}/people', call: inCourse('/people'), answers: teachers(200) },
  {
    route: 'DELETE /api/courses/{id}/people/{personId}',
    call: ({ courseId, owner }) => ({ path: `/api/courses/${courseId}/people/${owner.person.id}` }),
    answers: members(403),
  },
  {
    route: 'POST /api/courses/{id}/invitations',
    call: ({ courseId }) => ({ path: `/api/courses/${courseId}/invitations`, body: { email: 'a@example.org' } }),
    answers: owners(201),
  },
  {
    route: 'DELETE /api/courses/{id}/invitations/{invitationId}',
    call: async ({ courseId, owner }) => {
      const at = `/api/courses/${courseId}/invitations`;
      const { id } = (await owner.as.post(at, { email: 'b@example.org' })).as(invitationMade);
      return { path: `${at}/${id}` };
    },
    answers: owners(204),
  },
  {
    route: 'GET /api/invitations/{token}',
    call: () => ({ path: '/api/invitations/not-a-real-one' }),
    answers: forAll(404),
  },
  {
    route: 'POST /api/invitations/{token}/acceptance',
    call: () => ({ path: '/api/invitations/not-a-real-one/acceptance', body: {} }),
    answers: forAll(404),
  },
  {
    route: 'POST /api/courses/{id}/enrolment-codes',
    call: ({ courseId }) => ({ path: `/api/courses/${courseId}/enrolment-codes`, body: {} }),
    answers: teachers(201),
  },
  {
    route: 'GET /api/enrolment-codes/{code}',
    call: () => ({ path: '/api/enrolment-codes/AAAA-BBBB-CCCC' }),
    answers: forAll(404),
  },
  {
    route: 'POST /api/enrolments',
    call: () => ({ path: '/api/enrolments', body: { code: 'AAAA-BBBB-CCCC' } }),
    answers: forAll(404),
  },
  { route: 'GET /api/courses/{id}/progress', call: inCourse('/progress'), answers: teachers(200) },
  {
    route: 'PUT /api/courses/{id}/lesson-order',
    call: ({ courseId }) => ({ path: `/api/courses/${courseId}/lesson-order`, body: { lessonIds: [] } }),
    answers: teachers(204),
  },
  {
    route: 'POST /api/courses/{id}/songs',
    call: ({ courseId }) => ({ path: `/api/courses/${courseId}/songs`, body: { title: 'Song' } }),
    answers: teachers(201),
  },
  { route: 'GET /api/songs/{id}', call: inSong(''), answers: teachers(200) },
  {
    route: 'PATCH /api/songs/{id}',
    call: ({ songId }) => ({ path: `/api/songs/${songId}`, body: { title: 'New' } }),
    answers: teachers(200),
  },
  {
    route: 'POST /api/songs/{id}/score',
    call: ({ songId }) => ({ path: `/api/songs/${songId}/score`, body: tinyScore(['C3 D3 E3 F3']), headers: bytes }),
    answers: teachers(201),
  },
  {
    route: 'POST /api/songs/{id}/score/reading',
    call: async (course) => {
      const { version } = await songOf(course);
      return { path: `/api/songs/${course.songId}/score/reading`, body: {}, headers: { 'if-match': `"${version}"` } };
    },
    answers: teachers(200),
  },
  { route: 'GET /api/songs/{id}/score', call: inSong('/score'), answers: teachers(200) },
  {
    route: 'GET /api/songs/{id}/score/normalised.musicxml',
    call: inSong('/score/normalised.musicxml'),
    answers: teachers(200),
  },
  { route: 'GET /api/songs/{id}/score/fingering', call: inSong('/score/fingering'), answers: teachers(200) },
  { route: 'GET /api/songs/{id}/score/original', call: inSong('/score/original'), answers: teachers(200) },
  {
    route: 'GET /api/songs/{id}/export',
    call: inSong('/export?what=lines&format=musicxml'),
    answers: teachers(200),
  },
  {
    route: 'POST /api/songs/{id}/sound-files',
    call: ({ songId }) => ({ path: `/api/songs/${songId}/sound-files`, body: { format: 'mp3' } }),
    answers: teachers(201),
  },
  // Makings are their maker’s alone: what anybody else asks for is not there. What the maker gets is in sound-files.test.ts.
  { route: 'GET /api/songs/{id}/sound-files/{making}', call: inSong(noMaking), answers: teachers(404) },
  { route: 'DELETE /api/songs/{id}/sound-files/{making}', call: inSong(noMaking), answers: teachers(404) },
  { route: 'GET /api/songs/{id}/sound-files/{making}/file', call: inSong(`${noMaking}/file`), answers: teachers(404) },
  { route: 'GET /api/songs/{id}/sound', call: inSong('/sound'), answers: teachers(200) },
  {
    route: 'PUT /api/songs/{id}/sound',
    call: async (course) => {
      const { headers } = await course.owner.as.get(`/api/songs/${course.songId}/sound`);
      return {
        path: `/api/songs/${course.songId}/sound`,
        body: { playing: plainPlaying, mixes: [] },
        headers: { 'if-match': headers.get('etag') ?? '' },
      };
    },
    answers: teachers(200),
  },
  { route: 'GET /api/songs/{id}/split', call: inSong('/split'), answers: teachers(200) },
  { route: 'GET /api/songs/{id}/split/operations', call: inSong('/split/operations?after=0'), answers: teachers(200) },
  {
    route: 'POST /api/songs/{id}/split/operations',
    call: ({ songId }) => ({ path: `/api/songs/${songId}/split/operations`, body: makeLine() }),
    answers: teachers(201),
  },
  {
    route: 'POST /api/songs/{id}/split/proposal',
    call: ({ songId }) => ({ path: `/api/songs/${songId}/split/proposal`, body: {} }),
    answers: teachers(200),
  },
  {
    route: 'POST /api/songs/{id}/lessons',
    call: ({ songId }) => ({ path: `/api/songs/${songId}/lessons`, body: { title: 'Lesson' } }),
    answers: teachers(201),
  },
  {
    route: 'GET /api/lessons/{id}',
    call: async (course) => ({ path: await lessonPath(course) }),
    answers: teachers(200),
  },
  {
    route: 'PATCH /api/lessons/{id}',
    call: async (course) => ({
      path: await lessonPath(course),
      body: { title: 'New' },
      headers: { 'if-match': '"1"' },
    }),
    answers: teachers(200),
  },
  {
    route: 'DELETE /api/lessons/{id}',
    call: async (course) => ({ path: await lessonPath(course) }),
    answers: teachers(204),
  },
  {
    route: 'POST /api/lessons/{id}/releases',
    call: async (course) => ({ path: await lessonPath(course, '/releases'), body: {} }),
    answers: teachers(201),
  },
  {
    route: 'GET /api/releases/{id}',
    call: async (course) => ({ path: `/api/releases/${await released(course)}` }),
    answers: members(200),
  },
  {
    route: 'POST /api/releases/{id}/attempts',
    call: async (course) => ({
      path: `/api/releases/${await released(course)}/attempts`,
      body: { stepId: 'bars', pathStepId: 'sing', outcome: 'sang' },
    }),
    answers: members(201),
  },
  {
    route: 'GET /api/releases/{id}/attempts',
    call: async (course) => ({ path: `/api/releases/${await released(course)}/attempts` }),
    answers: members(200),
  },
  {
    route: 'GET /api/releases/{id}/own-mixes',
    call: async (course) => ({ path: `/api/releases/${await released(course)}/own-mixes` }),
    answers: members(200),
  },
  {
    route: 'PUT /api/releases/{id}/own-mixes',
    call: async (course) => ({
      path: `/api/releases/${await released(course)}/own-mixes`,
      body: { mixes: [] },
      headers: { 'if-match': '"0"' },
    }),
    answers: members(200),
  },
];

/** What each caller is answered who sends a message about this course's song over a socket of its own; null for no refusal. */
export const messages = [
  {
    type: 'join',
    message: ({ songId }: TestCourse) => ({ type: 'join', protocol: 1, songId, knownRevision: null }),
    other: 'not-found',
    student: 'not-permitted',
    coTeacher: null,
    owner: null,
  },
  {
    type: 'submit',
    message: ({ songId }: TestCourse) => ({ type: 'submit', songId, submission: makeLine() }),
    other: 'not-permitted',
    student: 'not-permitted',
    coTeacher: null,
    owner: null,
  },
  {
    type: 'presence',
    message: ({ songId }: TestCourse) => ({ type: 'presence', songId, presence: { bar: null, selection: [] } }),
    other: 'not-permitted',
    student: 'not-permitted',
    coTeacher: null,
    owner: null,
  },
  {
    type: 'leave',
    message: ({ songId }: TestCourse) => ({ type: 'leave', songId }),
    other: null,
    student: null,
    coTeacher: null,
    owner: null,
  },
] as const;
