import { queryOptions } from '@tanstack/react-query';
import { fetchCourse, fetchPeople, fetchProgress, fetchShelf } from './courses.ts';
import { fetchAttempts, fetchLesson, fetchRelease } from './lessons.ts';
import { fetchMe } from './people.ts';
import { fetchSongSound } from './song-sound.ts';
import { fetchScoreText, fetchSong, fetchSplit } from './songs.ts';

/** What the query cache holds, by name; a change of something invalidates the name it stands under. */
export const queries = {
  me: () => queryOptions({ queryKey: ['me'], queryFn: fetchMe, staleTime: 60_000 }),
  shelf: () => queryOptions({ queryKey: ['shelf'], queryFn: fetchShelf }),
  course: (courseId: string) => queryOptions({ queryKey: ['course', courseId], queryFn: () => fetchCourse(courseId) }),
  people: (courseId: string) =>
    queryOptions({ queryKey: ['course', courseId, 'people'], queryFn: () => fetchPeople(courseId) }),
  progress: (courseId: string) =>
    queryOptions({ queryKey: ['course', courseId, 'progress'], queryFn: () => fetchProgress(courseId) }),
  song: (songId: string) => queryOptions({ queryKey: ['song', songId], queryFn: () => fetchSong(songId) }),
  scoreText: (songId: string) =>
    queryOptions({ queryKey: ['song', songId, 'score'], queryFn: () => fetchScoreText(songId) }),
  split: (songId: string) => queryOptions({ queryKey: ['song', songId, 'split'], queryFn: () => fetchSplit(songId) }),
  songSound: (songId: string) =>
    queryOptions({ queryKey: ['song', songId, 'sound'], queryFn: () => fetchSongSound(songId) }),
  lesson: (lessonId: string) =>
    queryOptions({ queryKey: ['lesson', lessonId], queryFn: () => fetchLesson(lessonId), refetchOnWindowFocus: false }),
  release: (releaseId: string) =>
    queryOptions({ queryKey: ['release', releaseId], queryFn: () => fetchRelease(releaseId), staleTime: Infinity }),
  attempts: (releaseId: string) =>
    queryOptions({ queryKey: ['release', releaseId, 'attempts'], queryFn: () => fetchAttempts(releaseId) }),
} as const;
