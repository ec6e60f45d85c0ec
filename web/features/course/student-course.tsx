import { useQueries } from '@tanstack/react-query';
import type { CourseDetail } from '../../lib/api/courses.ts';
import { queries } from '../../lib/api/queries.ts';
import { paths } from '../../lib/paths.ts';
import { FilledLink, WordLink } from '../../ui/buttons.tsx';
import styles from './course.module.css';

interface StudentCourseProps {
  readonly course: CourseDetail;
}

/** The released lessons on one thread, each with how far one has come. */
export function StudentCourse({ course }: StudentCourseProps) {
  const releases = [...course.releases].sort((a, b) => a.position - b.position);
  const walked = useQueries({
    queries: releases.map(({ id }) => queries.attempts(id)),
    combine: (results) =>
      results.map(({ data }) =>
        data === undefined
          ? null
          : new Set(data.attempts.map((attempt) => `${attempt.stepId} ${attempt.pathStepId}`)).size,
      ),
  });
  const next = releases[Math.max(0, walked.indexOf(0))];
  if (next === undefined)
    return (
      <p className={styles.empty}>
        No lesson is released yet. Your teacher will tell you when the first one is there; it appears here by itself.
      </p>
    );
  return (
    <section aria-labelledby="lessons">
      <h2 id="lessons">Lessons</h2>
      <ol className={styles.walk}>
        {releases.map((release, index) => (
          <li key={release.id} data-walked={(walked[index] ?? 0) > 0}>
            <span className={styles.number} aria-hidden="true">
              {index + 1}
            </span>
            <WordLink to={paths.lesson(release.id)}>{release.title}</WordLink>
            <span className={styles.quiet}>
              {release.songTitle}; {walkedWords(walked[index] ?? null)}
            </span>
          </li>
        ))}
      </ol>
      <FilledLink to={paths.lesson(next.id)}>Open “{next.title}”</FilledLink>
    </section>
  );
}

function walkedWords(steps: number | null): string {
  if (steps === null) return 'looking how far you are…';
  if (steps === 0) return 'not begun';
  return steps === 1 ? 'one step walked' : `${steps} steps walked`;
}
