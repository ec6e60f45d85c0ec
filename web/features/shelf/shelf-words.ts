import type { CourseOnShelf } from '../../lib/api/courses.ts';

/** The greeting that suits an hour of the day. **Units** hours, 0 to 23. */
export function greeting(hour: number): string {
  if (hour < 5) return 'Still awake';
  if (hour < 12) return 'Good morning';
  return hour < 18 ? 'Good afternoon' : 'Good evening';
}

/** A count with its noun: `no songs`, `one song`, `12 songs`. */
export function counted(count: number, one: string, many: string): string {
  if (count === 0) return `no ${many}`;
  return count === 1 ? `one ${one}` : `${count} ${many}`;
}

/** What a course holds, in one line. */
export function contentsOf(course: CourseOnShelf): string {
  if (course.role === 'student') return `${counted(course.releaseCount, 'lesson', 'lessons')} for you to hear`;
  const people = course.peopleCount <= 1 ? 'nobody invited yet' : counted(course.peopleCount, 'person', 'people');
  return [counted(course.songCount, 'song', 'songs'), counted(course.lessonCount, 'lesson', 'lessons'), people].join(
    ', ',
  );
}

/** The sentence under the greeting: what is there, or the next thing to do. */
export function shelfSentence(courses: readonly CourseOnShelf[]): string {
  if (courses.length === 0) return 'Your shelf is empty. Start a course, or use the code that your teacher gave you.';
  const teaches = courses.some((course) => course.role !== 'student');
  if (!teaches) return 'Take up a lesson where you left it.';
  return courses.length === 1
    ? 'A course is on your shelf already, so that you can try everything before you make your own.'
    : 'Your courses, each in its own cloth.';
}
