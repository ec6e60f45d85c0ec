import type { CourseOnShelf } from '../../lib/api/courses.ts';

/** A count with its noun: `no songs`, `one song`, `12 songs`. */
export function counted(count: number, one: string, many: string): string {
  if (count === 0) return `no ${many}`;
  return count === 1 ? `one ${one}` : `${count} ${many}`;
}

/** What a course holds, in one line. */
export function contentsOf(course: CourseOnShelf): string {
  if (course.role === 'student') return `${counted(course.releaseCount, 'lesson', 'lessons')} for you to hear`;
  const people = course.peopleCount <= 1 ? 'only you so far' : counted(course.peopleCount, 'person', 'people');
  return [counted(course.songCount, 'song', 'songs'), counted(course.lessonCount, 'lesson', 'lessons'), people].join(
    ', ',
  );
}

/** The sentence under the greeting: what is there, or the next thing to do. */
export function shelfSentence(courses: readonly CourseOnShelf[]): string {
  if (courses.length === 0) return 'Nothing lies here yet. Begin a course, or join one with a code from your teacher.';
  const teaches = courses.some((course) => course.role !== 'student');
  if (!teaches) return 'Open a course and go on listening.';
  return courses.length === 1
    ? 'Here is a course to take apart: press, change and play whatever you like.'
    : 'Your courses, each in its own cloth.';
}
