import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  courseDetail,
  courseJoined,
  enrolmentCodeMade,
  enrolmentTold,
  invitationMade,
  invitationTold,
  me,
  peopleOfCourse,
  shelf,
} from '../../contract/index.ts';
import { startApp, type TestApp } from '../support/app.ts';
import { makeCourse } from '../support/course.ts';
import { SettableClock } from '../support/settable-clock.ts';

const clock = new SettableClock();
let api: TestApp;
beforeAll(async () => {
  api = await startApp({ clock });
});
afterAll(() => api.stop());

const endOf = (link: string): string => link.slice(link.lastIndexOf('/') + 1);
const password = 'a quiet pair of looms';
const DAY_MINUTES = 24 * 60;

describe('a course', () => {
  it('lies on the shelf of those who are in it, and of nobody else', async () => {
    const { as } = await api.person('Shelf Owner');
    const other = await api.person('Shelf Other');
    const made = (await as.post('/api/courses', { title: '  Four strings  ', summary: 'Low ones' }))
      .expect(201)
      .as(courseDetail);
    expect(made).toMatchObject({
      title: 'Four strings',
      summary: 'Low ones',
      role: 'owner',
      songCount: 0,
      peopleCount: 1,
    });
    expect(
      (await as.get('/api/shelf'))
        .expect(200)
        .as(shelf)
        .courses.map(({ id }) => id),
    ).toEqual([made.id]);
    expect((await other.as.get('/api/shelf')).expect(200).as(shelf).courses).toEqual([]);
    (await other.as.get(`/api/courses/${made.id}`)).refused(404, 'not-found');
    (await as.post('/api/courses', { title: '   ' })).refused(400, 'body-invalid');
  });

  it('is changed by its teachers, and not over a colleague’s change when the version is told', async () => {
    const { owner, coTeacher, courseId } = await makeCourse(api);
    const at = `/api/courses/${courseId}`;
    expect((await owner.as.get(at)).headers.get('etag')).toBe('"1"');
    expect(
      (await coTeacher.as.patch(at, { summary: 'New' }, { 'if-match': '"1"' })).expect(200).as(courseDetail).summary,
    ).toBe('New');
    (await owner.as.patch(at, { title: 'Old' }, { 'if-match': '"1"' })).refused(412, 'changed-meanwhile');
    const seen = (await owner.as.patch(at, { title: 'Last' })).expect(200).as(courseDetail);
    expect(seen).toMatchObject({ title: 'Last', summary: 'New' });
  });

  it('shows each teacher all of it and each student only releases', async () => {
    const { coTeacher, student, courseId, songId } = await makeCourse(api);
    const full = (await coTeacher.as.get(`/api/courses/${courseId}`)).expect(200).as(courseDetail);
    expect(full.songs).toMatchObject([{ id: songId, hasScore: true, looseNoteCount: 0 }]);
    const seen = (await student.as.get(`/api/courses/${courseId}`)).expect(200).as(courseDetail);
    expect(seen).toMatchObject({ role: 'student', songs: [], lessons: [] });
  });
});

describe('an invitation', () => {
  const invite = async (email: string) => {
    const course = await makeCourse(api);
    const made = (await course.owner.as.post(`/api/courses/${course.courseId}/invitations`, { email }))
      .expect(201)
      .as(invitationMade);
    return { ...course, made, token: endOf(made.link) };
  };

  it('tells a stranger what it is for, and makes a co-teacher who is signed in', async () => {
    const { made, token, courseId, owner } = await invite('newcomer@example.org');
    expect(made.link).toMatch(/\/invitations\/[\w-]{32}$/);
    const caller = api.stranger();
    const told = (await caller.get(`/api/invitations/${token}`)).expect(200).as(invitationTold);
    expect(told).toMatchObject({
      invitedByName: owner.person.name,
      email: 'newcomer@example.org',
      role: 'coTeacher',
      personExists: false,
    });
    (await caller.post(`/api/invitations/${token}/acceptance`)).refused(401, 'not-signed-in');
    (
      await caller.post(`/api/invitations/${token}/acceptance`, { newcomer: { name: 'New', password: 'short' } })
    ).refused(400, 'body-invalid');
    const joined = (
      await caller.post(`/api/invitations/${token}/acceptance`, { newcomer: { name: 'Newcomer', password } })
    )
      .expect(200)
      .as(courseJoined);
    expect(joined).toEqual({ courseId, role: 'coTeacher' });
    expect((await caller.get('/api/me')).expect(200).as(me)).toMatchObject({
      name: 'Newcomer',
      email: 'newcomer@example.org',
      hasPassword: true,
    });
    (await api.stranger().get(`/api/invitations/${token}`)).refused(410, 'code-expired');
    (await caller.post(`/api/invitations/${token}/acceptance`)).refused(410, 'code-expired');
  });

  it('is taken up by somebody who is here already, whatever the address; a student becomes a teacher', async () => {
    const { token, courseId, student } = await invite('some@example.org');
    expect((await student.as.post(`/api/invitations/${token}/acceptance`)).expect(200).as(courseJoined)).toEqual({
      courseId,
      role: 'coTeacher',
    });
  });

  it('does not let a stranger take over an address that is taken', async () => {
    const taken = await api.person('Taken Already');
    const { token } = await invite(taken.person.email);
    const answer = await api
      .stranger()
      .post(`/api/invitations/${token}/acceptance`, { newcomer: { name: 'Thief', password } });
    answer.refused(409, 'already-there');
    expect((await api.stranger().get(`/api/invitations/${token}`)).as(invitationTold).personExists).toBe(true);
  });

  it('is given by the owner only, listed while it is open, and runs out', async () => {
    const { token, courseId, owner, coTeacher, made } = await invite('slow@example.org');
    (await coTeacher.as.post(`/api/courses/${courseId}/invitations`, { email: 'x@example.org' })).refused(
      403,
      'not-permitted',
    );
    (await owner.as.post(`/api/courses/${courseId}/invitations`, { email: 'no address' })).refused(400, 'body-invalid');
    const people = async () => (await owner.as.get(`/api/courses/${courseId}/people`)).expect(200).as(peopleOfCourse);
    expect((await people()).openInvitations).toEqual([
      { id: made.id, email: 'slow@example.org', expiresAt: made.expiresAt },
    ]);
    clock.goOn(15 * DAY_MINUTES);
    (await api.stranger().get(`/api/invitations/${token}`)).refused(410, 'code-expired');
    expect((await people()).openInvitations).toEqual([]);
    (await api.stranger().get('/api/invitations/aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa')).refused(404, 'not-found');
  });
});

describe('withdrawing an invitation', () => {
  const invited = async () => {
    const course = await makeCourse(api);
    const at = `/api/courses/${course.courseId}/invitations`;
    const made = (await course.owner.as.post(at, { email: 'mistyped@example.org' })).expect(201).as(invitationMade);
    return { ...course, path: `${at}/${made.id}`, token: endOf(made.link) };
  };

  it('ends its link, takes it off the list, and is done once', async () => {
    const { owner, courseId, path, token } = await invited();
    (await owner.as.delete(path)).expect(204);
    (await api.stranger().get(`/api/invitations/${token}`)).refused(404, 'not-found');
    const people = (await owner.as.get(`/api/courses/${courseId}/people`)).expect(200).as(peopleOfCourse);
    expect(people.openInvitations).toEqual([]);
    (await owner.as.delete(path)).refused(404, 'not-found');
  });

  it('is the owner’s, in the course of the invitation, before it is taken up', async () => {
    const { owner, coTeacher, student, courseId, path, token } = await invited();
    (await coTeacher.as.delete(path)).refused(403, 'not-permitted');
    const other = await makeCourse(api);
    const elsewhere = path.replace(courseId, other.courseId);
    (await other.owner.as.delete(elsewhere)).refused(404, 'not-found');
    (await student.as.post(`/api/invitations/${token}/acceptance`)).expect(200);
    (await owner.as.delete(path)).refused(404, 'not-found');
    (await owner.as.delete(path.replace(/[^/]+$/, 'no-id'))).refused(404, 'not-found');
  });
});

describe('an enrolment code', () => {
  it('lets students in, however it is typed, until it runs out', async () => {
    const { coTeacher, owner, courseId } = await makeCourse(api);
    const { code } = (await coTeacher.as.post(`/api/courses/${courseId}/enrolment-codes`))
      .expect(201)
      .as(enrolmentCodeMade);
    expect(code).toMatch(/^[0-9A-HJKMNP-TV-Z]{4}(-[0-9A-HJKMNP-TV-Z]{4}){2}$/);
    expect(
      (await api.stranger().get(`/api/enrolment-codes/${code}`)).expect(200).as(enrolmentTold).courseTitle,
    ).toMatch(/^Course/);
    const student = await api.person('Typist');
    const typed = code.toLowerCase().replaceAll('-', ' ');
    expect((await student.as.post('/api/enrolments', { code: typed })).expect(200).as(courseJoined)).toEqual({
      courseId,
      role: 'student',
    });
    expect((await student.as.post('/api/enrolments', { code })).expect(200).as(courseJoined).role).toBe('student');
    expect((await owner.as.post('/api/enrolments', { code })).expect(200).as(courseJoined).role).toBe('owner');
    clock.goOn(31 * DAY_MINUTES);
    (await api.stranger().get(`/api/enrolment-codes/${code}`)).refused(410, 'code-expired');
    (await student.as.post('/api/enrolments', { code: 'AAAA-AAAA-AAAA' })).refused(404, 'not-found');
  });

  it('makes a person of a newcomer, who is signed in by the answer', async () => {
    const { owner, courseId } = await makeCourse(api);
    const { code } = (await owner.as.post(`/api/courses/${courseId}/enrolment-codes`)).as(enrolmentCodeMade);
    const caller = api.stranger();
    (await caller.post('/api/enrolments', { code })).refused(401, 'not-signed-in');
    const newcomer = { name: 'Nina', email: 'Nina@Example.org', password };
    (await caller.post('/api/enrolments', { code, newcomer: { ...newcomer, email: 'nowhere' } })).refused(
      400,
      'body-invalid',
    );
    (await caller.post('/api/enrolments', { code, newcomer })).expect(200);
    expect((await caller.get('/api/me')).as(me)).toMatchObject({ name: 'Nina', email: 'nina@example.org' });
    (await api.stranger().post('/api/enrolments', { code, newcomer })).refused(409, 'already-there');
  });
});

describe('people of a course', () => {
  it('are listed for teachers without their addresses', async () => {
    const { owner, student, courseId } = await makeCourse(api);
    const answer = (await owner.as.get(`/api/courses/${courseId}/people`)).expect(200);
    expect(
      answer
        .as(peopleOfCourse)
        .members.map(({ role }) => role)
        .sort(),
    ).toEqual(['coTeacher', 'owner', 'student']);
    expect(answer.text).not.toContain(student.person.email);
  });

  it('are removed by those who may, leave by themselves, and the owner stays', async () => {
    const { owner, coTeacher, student, courseId } = await makeCourse(api);
    const at = (id: string): string => `/api/courses/${courseId}/people/${id}`;
    (await student.as.delete(at(coTeacher.person.id))).refused(403, 'not-permitted');
    (await coTeacher.as.delete(at(owner.person.id))).refused(403, 'not-permitted');
    (await owner.as.delete(at(owner.person.id))).refused(403, 'not-permitted');
    (await owner.as.delete(at('01a00000-0000-7000-8000-000000000000'))).refused(404, 'not-found');
    (await coTeacher.as.delete(at(student.person.id))).expect(204);
    (await student.as.get(`/api/courses/${courseId}`)).refused(404, 'not-found');
    (await coTeacher.as.delete(at(coTeacher.person.id))).expect(204);
    (await coTeacher.as.get(`/api/courses/${courseId}`)).refused(404, 'not-found');
  });
});
