import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useNavigate } from 'react-router';
import { addLesson, orderLessons, type CourseDetail } from '../../lib/api/courses.ts';
import { plainWords } from '../../lib/api/problem.ts';
import { removeLesson } from '../../lib/api/lessons.ts';
import { queries } from '../../lib/api/queries.ts';
import { paths } from '../../lib/paths.ts';
import { AskedDeed } from '../../ui/asked-deed.tsx';
import { WordButton, WordLink } from '../../ui/buttons.tsx';
import { Notice } from '../../ui/notice.tsx';
import styles from './course.module.css';
import { moved } from './lesson-order.ts';

interface LessonListProps {
  readonly course: CourseDetail;
}

type Lesson = CourseDetail['lessons'][number];

function stateOf(lesson: Lesson): string {
  if (lesson.releasedAt === null) return 'not released';
  return lesson.hasChangesSinceRelease ? 'released, changed since' : 'released';
}

/** The lessons of a course in their order, each with whether students see it. */
export function LessonList({ course }: LessonListProps) {
  const cache = useQueryClient();
  const navigate = useNavigate();
  const refresh = () => cache.invalidateQueries({ queryKey: queries.course(course.id).queryKey });
  const ordering = useMutation({
    mutationFn: (ids: readonly string[]) => orderLessons(course.id, ids),
    onSettled: refresh,
  });
  const adding = useMutation({
    mutationFn: (songId: string) => addLesson(songId, 'A new lesson'),
    onSuccess: async (lesson) => {
      await refresh();
      await navigate(paths.lessonEditor(lesson.id));
    },
  });
  const lessons = [...course.lessons].sort((a, b) => a.position - b.position);
  const ids = lessons.map(({ id }) => id);
  const songTitle = (songId: string) => course.songs.find(({ id }) => id === songId)?.title ?? '';
  const trouble = ordering.error ?? adding.error;
  return (
    <section aria-labelledby="lessons">
      <h2 id="lessons">Lessons</h2>
      {lessons.length === 0 ? (
        <p className={styles.empty}>
          {course.songs.length === 0
            ? 'Lessons come after the first song.'
            : 'No lesson yet. Write the first one below.'}
        </p>
      ) : null}
      <ol className={styles.rows}>
        {lessons.map((lesson, index) => (
          <LessonRow
            key={lesson.id}
            lesson={lesson}
            songTitle={songTitle(lesson.songId)}
            canMoveUp={index > 0 && !ordering.isPending}
            canMoveDown={index < lessons.length - 1 && !ordering.isPending}
            onMove={(by) => ordering.mutate(moved(ids, index, by))}
            onRemove={async () => {
              await removeLesson(lesson.id);
              await refresh();
            }}
          />
        ))}
      </ol>
      {trouble === null ? null : <Notice kind="trouble">{plainWords(trouble)}</Notice>}
      <div className={styles.adds}>
        {course.songs
          .filter((song) => song.hasScore)
          .map((song) => (
            <WordButton key={song.id} onPress={() => adding.mutate(song.id)} isDisabled={adding.isPending}>
              Write a lesson on {song.title}
            </WordButton>
          ))}
      </div>
    </section>
  );
}

interface LessonRowProps {
  readonly lesson: Lesson;
  readonly songTitle: string;
  readonly canMoveUp: boolean;
  readonly canMoveDown: boolean;
  readonly onMove: (by: 1 | -1) => void;
  readonly onRemove: () => Promise<void>;
}

const LessonRow = ({ lesson, songTitle, canMoveUp, canMoveDown, onMove, onRemove }: LessonRowProps) => (
  <li>
    <WordLink to={paths.lessonEditor(lesson.id)}>{lesson.title}</WordLink>
    <span className={styles.quiet}>
      {songTitle}; {stateOf(lesson)}
    </span>
    <span className={styles.moves}>
      <WordButton isDisabled={!canMoveUp} onPress={() => onMove(-1)} aria-label={`Move ${lesson.title} up`}>
        Up
      </WordButton>
      <WordButton isDisabled={!canMoveDown} onPress={() => onMove(1)} aria-label={`Move ${lesson.title} down`}>
        Down
      </WordButton>
      <AskedDeed
        word="Delete"
        label={`Delete ${lesson.title}`}
        question={`Delete “${lesson.title}”?`}
        yes="Delete it"
        deed={onRemove}
      >
        {lesson.releasedAt === null
          ? 'Nobody but the teachers has seen it yet. Its text and listening paths are gone then; the song and its split stay.'
          : 'Students can no longer open it, not even by an old link: its releases go with it. The song and its split stay, and what students heard and sang is kept, though nothing shows it any more.'}
      </AskedDeed>
    </span>
  </li>
);
