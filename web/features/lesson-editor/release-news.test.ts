import { describe, expect, it } from 'vitest';
import type { LessonDetail } from '../../lib/api/lessons.ts';
import { hasNews } from './release-news.ts';

const lesson: LessonDetail = {
  id: 'l',
  courseId: 'c',
  songId: 's',
  title: 'A lesson',
  position: 1,
  version: 3,
  steps: [{ kind: 'text', id: 'a', text: 'Listen' }],
  latestRelease: { id: 'r', number: 1, releasedAt: '2026-01-01T00:00:00Z', contentHash: 'h' },
  hasChangesSinceRelease: false,
};

describe('news since the release', () => {
  it.each([
    ['nothing has changed', lesson, lesson, false],
    [
      'only the order of keys differs',
      lesson,
      { title: 'A lesson', steps: [{ text: 'Listen', id: 'a', kind: 'text' as const }] },
      false,
    ],
    ['the server knows of a change', { ...lesson, hasChangesSinceRelease: true }, lesson, true],
    ['the draft says something else', lesson, { ...lesson, title: 'Another' }, true],
    ['it was never released', { ...lesson, latestRelease: null }, lesson, true],
  ])('%s', (_, known, draft, expected) => expect(hasNews(known, draft)).toBe(expected));
});
