import { describe, expect, it } from 'vitest';
import type { CourseOnShelf } from '../../lib/api/courses.ts';
import { contentsOf, counted, shelfSentence } from './shelf-words.ts';

const course = (change: Partial<CourseOnShelf>): CourseOnShelf => ({
  id: '01990000-0000-7000-8000-000000000001',
  title: 'Four strands',
  summary: '',
  role: 'owner',
  songCount: 2,
  lessonCount: 3,
  releaseCount: 1,
  peopleCount: 1,
  ...change,
});

describe('the words of the shelf', () => {
  it('counts nothing, one and many', () => {
    expect([0, 1, 7].map((count) => counted(count, 'song', 'songs'))).toEqual(['no songs', 'one song', '7 songs']);
  });

  it('tells a teacher what a course holds and a student what there is to hear', () => {
    expect(contentsOf(course({}))).toBe('2 songs, 3 lessons, only you so far');
    expect(contentsOf(course({ role: 'student' }))).toBe('one lesson for you to hear');
  });

  it('says the next thing to do on an empty shelf', () => {
    expect(shelfSentence([])).toContain('Begin a course');
    expect(shelfSentence([course({})])).toContain('take apart');
  });
});
