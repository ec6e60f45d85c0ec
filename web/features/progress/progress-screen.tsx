import { useQuery } from '@tanstack/react-query';
import { useParams } from 'react-router';
import type { ProgressOfCourse } from '../../lib/api/courses.ts';
import { queries } from '../../lib/api/queries.ts';
import { paths } from '../../lib/paths.ts';
import { AccountLine } from '../../ui/account-line.tsx';
import { WordLink } from '../../ui/buttons.tsx';
import { Wait } from '../../ui/notice.tsx';
import { PageFrame } from '../../ui/page-frame.tsx';
import { stuckLessons, walkOf, walkWords, type Walk } from './progress-words.ts';
import styles from './progress.module.css';

/** Who has heard and sung what, lesson by lesson, and where the class is stuck. */
export function ProgressScreen() {
  const { courseId = '' } = useParams();
  const { data: course } = useQuery(queries.course(courseId));
  const { data: progress } = useQuery(queries.progress(courseId));
  const place = course === undefined ? null : <WordLink to={paths.course(courseId)}>{course.title}</WordLink>;
  return (
    <PageFrame title="Progress" place={place} end={<AccountLine />}>
      <h1>Who has heard and sung what</h1>
      {progress === undefined ? (
        <Wait>Fetching what the students marked…</Wait>
      ) : (
        <Overview progress={progress} courseId={courseId} />
      )}
    </PageFrame>
  );
}

interface OverviewProps {
  readonly progress: ProgressOfCourse;
  readonly courseId: string;
}

function Overview({ progress, courseId }: OverviewProps) {
  if (progress.lessons.length === 0)
    return (
      <p className={styles.lead}>
        Nothing is released yet. What students hear and sing shows here from the first released lesson on.
      </p>
    );
  if (progress.students.length === 0) {
    return (
      <p className={styles.lead}>
        No student is in this course yet. Make a code for them{' '}
        <WordLink to={paths.course(courseId)}>on the course’s page</WordLink>.
      </p>
    );
  }
  const stuck = stuckLessons(progress);
  return (
    <>
      <p className={styles.lead}>
        {stuck.length === 0
          ? 'Nobody says that something is not yet there.'
          : `Not yet there: ${stuck.map(({ title, people }) => `“${title}” for ${people} ${people === 1 ? 'person' : 'people'}`).join(', ')}.`}
      </p>
      {progress.lessons.map((lesson) => (
        <section key={lesson.lessonId} className={styles.lesson} aria-label={lesson.title}>
          <h2>
            <WordLink to={paths.lesson(lesson.releaseId)}>{lesson.title}</WordLink>
          </h2>
          <ul className={styles.people}>
            {progress.students.map((student) => {
              const walk = walkOf(
                progress.progress.find(
                  (each) => each.personId === student.personId && each.lessonId === lesson.lessonId,
                ),
                lesson.pathStepCount,
              );
              return (
                <li key={student.personId}>
                  <span>{student.name}</span>
                  <WalkThread walk={walk} />
                  <span className={styles.quiet}>{walkWords(walk)}</span>
                </li>
              );
            })}
          </ul>
        </section>
      ))}
    </>
  );
}

interface WalkThreadProps {
  readonly walk: Walk;
}

/** A walk as a thread that is drawn as far as somebody has come, a knot for each line sung. */
const WalkThread = ({ walk }: WalkThreadProps) => {
  const share = walk.steps === 0 ? 0 : walk.walked / walk.steps;
  return (
    <svg viewBox="0 0 200 16" className={styles.thread} preserveAspectRatio="none" aria-hidden="true">
      <path d="M0 8H200" stroke="var(--edge)" strokeWidth="1.5" strokeDasharray="2 5" />
      <path d={`M0 8H${200 * share}`} stroke="var(--accent)" strokeWidth="3" />
      {Array.from({ length: walk.sang }, (_, index) => (
        <ellipse
          key={index}
          cx={Math.max(5, 200 * share - 5 - 11 * index)}
          cy="8"
          rx="4"
          ry="6"
          fill="var(--ground)"
          stroke="var(--accent)"
          strokeWidth="2"
        />
      ))}
    </svg>
  );
};
