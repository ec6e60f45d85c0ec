import type { CourseRole } from '../../contract/index.ts';

/** Everything that a role may be allowed to do in a course. */
export type Permission =
  | 'course.see'
  | 'course.change'
  | 'people.see'
  | 'people.invite'
  | 'people.enrol'
  | 'student.remove'
  | 'teacher.remove'
  | 'song.see'
  | 'song.change'
  | 'score.upload'
  | 'split.mark'
  | 'lesson.see'
  | 'lesson.change'
  | 'lesson.release'
  | 'release.read'
  | 'attempt.make'
  | 'mixes.keep'
  | 'progress.see';

const ofStudents: readonly Permission[] = ['course.see', 'release.read', 'attempt.make', 'mixes.keep'];
const ofTeachers: readonly Permission[] = [
  ...ofStudents,
  'course.change',
  'people.see',
  'people.enrol',
  'student.remove',
  'song.see',
  'song.change',
  'score.upload',
  'split.mark',
  'lesson.see',
  'lesson.change',
  'lesson.release',
  'progress.see',
];
const ofOwners: readonly Permission[] = [...ofTeachers, 'people.invite', 'teacher.remove'];

const permissions: Readonly<Record<CourseRole, ReadonlySet<Permission>>> = {
  student: new Set(ofStudents),
  coTeacher: new Set(ofTeachers),
  owner: new Set(ofOwners),
};

/** Whether a role includes a permission. */
export const mayDo = (role: CourseRole, permission: Permission): boolean => permissions[role].has(permission);
