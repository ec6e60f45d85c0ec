import type { z } from 'zod';
import { lessonDetail, releaseDetail } from '../../contract/index.ts';
import { splitOf, type TestCourse } from './course.ts';

/** The steps of a small lesson: a text, and the first bar of the song with its first line to hear and to sing. */
export async function smallSteps(course: TestCourse): Promise<readonly unknown[]> {
  const first = (await splitOf(course)).lines[0]!.id;
  const whole = { numerator: 4, denominator: 1 };
  const excerpt = { from: { bar: 'b1', offset: { numerator: 0, denominator: 1 } }, to: { bar: 'b1', offset: whole } };
  const hear = { kind: 'hear', id: 'hear', title: 'Hear it', lines: [first], forward: null, mix: [], view: 'stacked' };
  const sing = { kind: 'echo', id: 'sing', title: 'Sing it', lines: [first], mix: [], view: 'threaded' };
  return [
    { kind: 'text', id: 'words', text: 'Listen for the **line**.' },
    { kind: 'listen', id: 'bars', title: 'Bar one', excerpt, tempoPercent: 80, path: [hear, sing] },
  ];
}

/** A lesson about the course's song. */
export async function makeLesson(course: TestCourse, title = 'Lesson'): Promise<z.output<typeof lessonDetail>> {
  const steps = await smallSteps(course);
  return (await course.owner.as.post(`/api/songs/${course.songId}/lessons`, { title, steps }))
    .expect(201)
    .as(lessonDetail);
}

/** A lesson that is released as it stands. */
export async function releaseLesson(course: TestCourse, lessonId: string): Promise<z.output<typeof releaseDetail>> {
  return (await course.owner.as.post(`/api/lessons/${lessonId}/releases`)).expect(201).as(releaseDetail);
}
