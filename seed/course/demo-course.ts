import type { LessonStep } from '../../contract/index.ts';
import type { Score } from '../../music/index.ts';
import type { DemoLines } from './demo-lines.ts';
import { firstLessonSteps } from './first-lesson.ts';
import { secondLessonSteps } from './second-lesson.ts';

/** One lesson of the demo about its first piece. */
export interface DemoLesson {
  readonly title: string;
  readonly isReleased: boolean;
  readonly steps: (score: Pick<Score, 'bars'>, lines: DemoLines) => LessonStep[];
}

export const demoCourse = {
  title: 'A quartet on six strings',
  summary:
    'Hear a tune, its bass, the voice between them and the taps one at a time; sing each of them; then let one pair of hands play all four.',
};

/** In course order. */
export const demoLessons: readonly DemoLesson[] = [
  { title: 'A tune and what carries it', isReleased: true, steps: firstLessonSteps },
  { title: 'Four lines at once', isReleased: false, steps: secondLessonSteps },
];
