import type { z } from 'zod';
import { songDetail, splitSnapshot } from '../../contract/index.ts';
import type { SignedIn, TestApp } from './app.ts';
import { tinyScore } from './tiny-score.ts';

/** A course with one of each role and a song that has a score. */
export interface TestCourse {
  readonly owner: SignedIn;
  readonly coTeacher: SignedIn;
  readonly student: SignedIn;
  readonly courseId: string;
  readonly songId: string;
}

let count = 0;

/** Makes a course of its own, with an owner, a co-teacher and a student, and a song with a score, a small one as a rule, that is split. */
export async function makeCourse(
  api: TestApp,
  bytes: Uint8Array = tinyScore(['E2 G3 B3 E4', 'A2 C4 E4 A4']),
): Promise<TestCourse> {
  const number = (count += 1);
  const owner = await api.person(`Owner ${number}`);
  const coTeacher = await api.person(`Co ${number}`);
  const student = await api.person(`Student ${number}`);
  const { id: courseId } = await api.desk.courses.make(owner.person, { title: `Course ${number}`, summary: '' });
  await api.desk.admitCoTeacher(owner.person, courseId, coTeacher.person);
  await api.desk.admitStudent(owner.person, courseId, student.person);
  const { id: songId } = await api.desk.songs.make(owner.person, courseId, { title: `Song ${number}`, composer: '' });
  await api.desk.scores.upload(owner.person, songId, {
    fileName: 'tiny.musicxml',
    bytes,
  });
  return { owner, coTeacher, student, courseId, songId };
}

/** The split of a song as its owner sees it. */
export async function splitOf({ owner, songId }: TestCourse): Promise<z.output<typeof splitSnapshot>> {
  return (await owner.as.get(`/api/songs/${songId}/split`)).expect(200).as(splitSnapshot);
}

/** The song as its owner sees it. */
export async function songOf({ owner, songId }: TestCourse): Promise<z.output<typeof songDetail>> {
  return (await owner.as.get(`/api/songs/${songId}`)).expect(200).as(songDetail);
}
