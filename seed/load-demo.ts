import type { Clock, Desk, Person } from '../api/index.ts';
import { readNormalised, type Score } from '../music/index.ts';
import { demoCourse, demoLessons, type DemoLesson } from './course/demo-course.ts';
import { demoLines } from './course/demo-lines.ts';
import { demoCoTeacher, demoStudent, demoTeacher } from './course/people.ts';
import { demoPieces, type DemoPiece } from './demo-pieces.ts';
import { markTrueSplit } from './true-split.ts';

/** The demo as it stands after loading. */
export interface LoadedDemo {
  readonly teacher: Person;
  readonly student: Person;
  /** False where the demo was there already and nothing was touched. */
  readonly isNew: boolean;
}

interface Loading {
  readonly desk: Desk;
  readonly clock: Pick<Clock, 'newId'>;
  readonly teacher: Person;
  readonly courseId: string;
}

async function courseOf(desk: Desk, teacher: Person): Promise<string> {
  const { courses } = await desk.courses.shelf(teacher);
  const present = courses.find(({ title }) => title === demoCourse.title);
  return (present ?? (await desk.courses.make(teacher, demoCourse))).id;
}

async function loadSong({ desk, teacher, courseId }: Loading, demo: DemoPiece): Promise<string> {
  const { songs } = await desk.courses.detail(teacher, courseId);
  const present = songs.find(({ title }) => title === demo.title);
  const { id } = present ?? (await desk.songs.make(teacher, courseId, { title: demo.title, composer: demo.composer }));
  if (present?.hasScore !== true)
    await desk.scores.upload(teacher, id, { fileName: demo.fileName, bytes: new TextEncoder().encode(demo.musicXml) });
  return id;
}

async function loadLesson(
  { desk, teacher, courseId }: Loading,
  songId: string,
  score: Score,
  lesson: DemoLesson,
): Promise<void> {
  const { lessons } = await desk.courses.detail(teacher, courseId);
  const present = lessons.find(({ title }) => title === lesson.title);
  const lines = demoLines((await desk.splits.snapshot(teacher, songId)).lines.filter((line) => !line.isRetired));
  const draft = { title: lesson.title, steps: lesson.steps(score, lines) };
  const { id } = present ?? (await desk.lessons.make(teacher, songId, draft));
  if (lesson.isReleased) await desk.releases.release(teacher, id);
}

/**
 * Puts the demo course where it is not: people, two songs, the first one's true split by hand (the second keeps the
 * tool's proposal), two lessons, one of them released. The student is let in last; once that is done nothing is
 * touched again, and where loading broke off before, it goes on from there.
 */
export async function loadDemo(desk: Desk, clock: Pick<Clock, 'newId'>): Promise<LoadedDemo> {
  const teacher = await desk.personNamed(demoTeacher.name, demoTeacher.email);
  const student = await desk.personNamed(demoStudent.name, demoStudent.email);
  if ((await desk.courses.shelf(student)).courses.length > 0) return { teacher, student, isNew: false };
  const coTeacher = await desk.personNamed(demoCoTeacher.name, demoCoTeacher.email);
  const loading: Loading = { desk, clock, teacher, courseId: await courseOf(desk, teacher) };
  const [first, second] = demoPieces();
  if (first === undefined || second === undefined) throw new Error('The demo has two pieces');
  const songId = await loadSong(loading, first);
  const score = readNormalised((await desk.scores.normalised(teacher, songId)).xml).value;
  await markTrueSplit({ desk, clock, teacher, songId, demo: first, score });
  await loadSong(loading, second);
  for (const lesson of demoLessons) await loadLesson(loading, songId, score, lesson);
  await desk.admitCoTeacher(teacher, loading.courseId, coTeacher);
  await desk.admitStudent(teacher, loading.courseId, student);
  return { teacher, student, isNew: true };
}
