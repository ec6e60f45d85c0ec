import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useNavigate } from 'react-router';
import { addLesson, type CourseDetail } from '../../lib/api/courses.ts';
import { plainWords } from '../../lib/api/problem.ts';
import { queries } from '../../lib/api/queries.ts';
import { paths } from '../../lib/paths.ts';
import { EdgeButton, WordLink } from '../../ui/buttons.tsx';
import { Notice } from '../../ui/notice.tsx';
import styles from './song.module.css';

interface LessonsOfSongProps {
  readonly songId: string;
  readonly course: CourseDetail;
}

/** The lessons that are made of this song. */
export function LessonsOfSong({ songId, course }: LessonsOfSongProps) {
  const cache = useQueryClient();
  const navigate = useNavigate();
  const adding = useMutation({
    mutationFn: () => addLesson(songId, 'A new lesson'),
    onSuccess: async (lesson) => {
      await cache.invalidateQueries({ queryKey: queries.course(course.id).queryKey });
      await navigate(paths.lessonEditor(lesson.id));
    },
  });
  const lessons = course.lessons.filter((lesson) => lesson.songId === songId);
  return (
    <section aria-labelledby="song-lessons">
      <h2 id="song-lessons">Its lessons</h2>
      {lessons.length === 0 ? (
        <p className={styles.quiet}>
          None yet. Once the lines are right, write one: the listening path is made in one click.
        </p>
      ) : null}
      <ul className={styles.lessons}>
        {lessons.map((lesson) => (
          <li key={lesson.id}>
            <WordLink to={paths.lessonEditor(lesson.id)}>{lesson.title}</WordLink>{' '}
            <span className={styles.quiet}>{lesson.releasedAt === null ? 'not released' : 'released'}</span>
          </li>
        ))}
      </ul>
      {adding.isError ? <Notice kind="trouble">{plainWords(adding.error)}</Notice> : null}
      <EdgeButton onPress={() => adding.mutate()} isDisabled={adding.isPending}>
        Write a lesson
      </EdgeButton>
    </section>
  );
}
