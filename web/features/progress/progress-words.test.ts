import { describe, expect, it } from 'vitest';
import type { ProgressOfCourse } from '../../lib/api/courses.ts';
import { stuckLessons, walkOf, walkWords } from './progress-words.ts';

const outcome = (pathStepId: string, told: 'heard' | 'sang' | 'nearly' | 'notYet') => ({
  stepId: 's',
  pathStepId,
  outcome: told,
});
const entry = (personId: string, lessonId: string, ...latest: ReturnType<typeof outcome>[]) => ({
  personId,
  lessonId,
  attemptCount: latest.length,
  latestAt: '2026-01-01T00:00:00Z',
  latest,
});
const lesson = (lessonId: string, title: string) => ({
  lessonId,
  title,
  position: 1,
  releaseId: lessonId,
  pathStepCount: 4,
});

describe('progress in words', () => {
  it('tells what was walked, sung and not yet there', () => {
    const walk = walkOf(entry('p', 'l', outcome('a', 'heard'), outcome('b', 'sang'), outcome('c', 'nearly')), 4);
    expect(walk).toEqual({ walked: 3, steps: 4, sang: 1, notYet: 1 });
    expect(walkWords(walk)).toBe('3 of 4 steps, 1 sung, 1 not yet there');
    expect(walkWords(walkOf(undefined, 4))).toBe('not begun');
  });

  it('never counts more steps than the lesson has now', () => {
    expect(walkOf(entry('p', 'l', outcome('a', 'heard'), outcome('gone', 'heard')), 1).walked).toBe(1);
  });

  it('finds where a class is stuck, the most people first', () => {
    const course: ProgressOfCourse = {
      students: [],
      lessons: [lesson('one', 'One'), lesson('two', 'Two'), lesson('three', 'Three')],
      progress: [
        entry('p', 'one', outcome('a', 'notYet')),
        entry('p', 'two', outcome('a', 'nearly')),
        entry('q', 'two', outcome('a', 'notYet')),
        entry('q', 'three', outcome('a', 'sang')),
      ],
    };
    expect(stuckLessons(course)).toEqual([
      { title: 'Two', people: 2 },
      { title: 'One', people: 1 },
    ]);
  });
});
