import type { z } from 'zod';
import {
  courseDetail,
  courseOnShelf,
  enrolmentCodeMade,
  invitationMade,
  lessonDetail,
  peopleOfCourse,
  progressOfCourse,
  shelf,
  songDetail,
} from '../../../contract/index.ts';
import { request, requestDone } from './request.ts';

export type CourseOnShelf = z.output<typeof courseOnShelf>;
export type CourseDetail = z.output<typeof courseDetail>;
export type PeopleOfCourse = z.output<typeof peopleOfCourse>;
export type ProgressOfCourse = z.output<typeof progressOfCourse>;

const at = (courseId: string) => `/api/courses/${courseId}`;

export const fetchShelf = () => request(shelf, '/api/courses');
export const startCourse = (draft: { readonly title: string; readonly summary: string }) =>
  request(courseOnShelf, '/api/courses', { method: 'POST', body: draft });
export const fetchCourse = (courseId: string) => request(courseDetail, at(courseId));
export const changeCourse = (courseId: string, change: { readonly title: string; readonly summary: string }) =>
  request(courseDetail, at(courseId), { method: 'PATCH', body: change });
export const fetchPeople = (courseId: string) => request(peopleOfCourse, `${at(courseId)}/people`);
export const invite = (courseId: string, email: string) =>
  request(invitationMade, `${at(courseId)}/invitations`, { method: 'POST', body: { email } });
/** Ends a membership: one's own, or another's where that is allowed. */
export const removeMember = (courseId: string, personId: string) =>
  requestDone(`${at(courseId)}/people/${personId}`, { method: 'DELETE' });
/** Takes an invitation back that nobody has taken up. */
export const withdrawInvitation = (courseId: string, invitationId: string) =>
  requestDone(`${at(courseId)}/invitations/${invitationId}`, { method: 'DELETE' });
export const makeEnrolmentCode = (courseId: string) =>
  request(enrolmentCodeMade, `${at(courseId)}/enrolment-codes`, { method: 'POST', body: {} });
export const addSong = (courseId: string, draft: { readonly title: string; readonly composer: string }) =>
  request(songDetail, `${at(courseId)}/songs`, { method: 'POST', body: draft });
export const addLesson = (songId: string, title: string) =>
  request(lessonDetail, `/api/songs/${songId}/lessons`, { method: 'POST', body: { title } });
/** Puts a course's lessons in this order. */
export const orderLessons = (courseId: string, lessonIds: readonly string[]) =>
  requestDone(`${at(courseId)}/lesson-order`, { method: 'PUT', body: { lessonIds } });
export const fetchProgress = (courseId: string) => request(progressOfCourse, `${at(courseId)}/progress`);
