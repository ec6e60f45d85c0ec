import { hashKey } from '@tanstack/react-query';
import type { LessonDetail, LessonText } from '../../lib/api/lessons.ts';

const inOneOrder = ({ title, steps }: LessonText): string => hashKey([title, steps]);

/** Whether a release of this moment would differ from the latest: its text, its split or its score. True before the first. */
export const hasNews = (lesson: LessonDetail, draft: LessonText): boolean =>
  lesson.latestRelease === null || lesson.hasChangesSinceRelease || inOneOrder(lesson) !== inOneOrder(draft);
