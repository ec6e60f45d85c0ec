import { z } from 'zod';
import { instant, title, uuid } from './ids.ts';
import { enrolledNewcomer, invitedNewcomer } from './person.ts';

/** What a person may do in a course. */
export const courseRole = z.enum(['owner', 'coTeacher', 'student']);
export type CourseRole = z.output<typeof courseRole>;

const summary = z.string().trim().max(500);
export const courseDraft = z.object({ title, summary: summary.default('') });
export const courseChange = z.object({ title, summary }).partial();

/** One course as it lies on the shelf. */
export const courseOnShelf = z.object({
  id: uuid,
  title,
  summary: z.string(),
  role: courseRole,
  songCount: z.int(),
  lessonCount: z.int(),
  releaseCount: z.int(),
  peopleCount: z.int(),
});
export const shelf = z.object({ courses: z.array(courseOnShelf) });

export const songInCourse = z.object({
  id: uuid,
  title,
  composer: z.string(),
  hasScore: z.boolean(),
  looseNoteCount: z.int().nullable(),
});
export const lessonInCourse = z.object({
  id: uuid,
  songId: uuid,
  title,
  position: z.int(),
  releasedAt: instant.nullable(),
  hasChangesSinceRelease: z.boolean(),
});
/** A released lesson in a student's list. */
export const releaseInCourse = z.object({
  id: uuid,
  lessonId: uuid,
  title,
  songTitle: z.string(),
  position: z.int(),
  releasedAt: instant,
});

/** A course as its teachers see it, or as a student does (then songs and lessons are empty and only releases are told). */
export const courseDetail = courseOnShelf.extend({
  songs: z.array(songInCourse),
  lessons: z.array(lessonInCourse),
  releases: z.array(releaseInCourse),
});

export const memberOfCourse = z.object({ personId: uuid, name: z.string(), role: courseRole, joinedAt: instant });
export const invitationDraft = z.object({ email: z.email() });
/** `link` is told once, to the owner who asked for it. */
export const invitationMade = z.object({ id: uuid, email: z.email(), link: z.string(), expiresAt: instant });
export const enrolmentCodeMade = z.object({ code: z.string(), link: z.string(), expiresAt: instant });
/** A code, and for somebody who is not signed in, who he or she is; such a person is signed in by the answer. */
export const enrolmentDraft = z.object({
  code: z.string().trim().min(4).max(40),
  newcomer: enrolledNewcomer.optional(),
});
/** What a code is for. */
export const enrolmentTold = z.object({ courseTitle: z.string(), expiresAt: instant });
/** What an invitation is for; `personExists` says that its address has signed in here before. */
export const invitationTold = z.object({
  courseTitle: z.string(),
  invitedByName: z.string(),
  email: z.email(),
  role: courseRole,
  expiresAt: instant,
  personExists: z.boolean(),
});
/** Taking up an invitation: signed in without `newcomer`, or as somebody new, who is then signed in by the answer. */
export const invitationAcceptance = z.object({ newcomer: invitedNewcomer.optional() });
export const courseJoined = z.object({ courseId: uuid, role: courseRole });
export const peopleOfCourse = z.object({
  members: z.array(memberOfCourse),
  openInvitations: z.array(invitationMade.omit({ link: true })),
});
