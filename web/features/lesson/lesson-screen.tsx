import { useQuery } from '@tanstack/react-query';
import { useEffect } from 'react';
import { useParams } from 'react-router';
import { plainWords } from '../../lib/api/problem.ts';
import { queries } from '../../lib/api/queries.ts';
import { useMe } from '../../lib/api/use-me.ts';
import { keepLastPlace } from '../../lib/last-place.ts';
import { paths } from '../../lib/paths.ts';
import { WordLink } from '../../ui/buttons.tsx';
import { Notice, Wait } from '../../ui/notice.tsx';
import { PageFrame } from '../../ui/page-frame.tsx';
import styles from './lesson.module.css';
import { LessonReader } from './lesson-reader.tsx';
import { OwnWalk } from './own-walk.tsx';
import { useOwnMixes } from './own-mixes.ts';
import { usePractice } from './practice.ts';

/** A released lesson, for whoever is in the course. */
export function LessonScreen() {
  const { releaseId = '' } = useParams();
  const me = useMe();
  const { data: release } = useQuery(queries.release(releaseId));
  const { data: course } = useQuery({ ...queries.course(release?.courseId ?? ''), enabled: release !== undefined });
  const practice = usePractice(releaseId);
  const ownMixes = useOwnMixes(releaseId);
  const title = release?.content.title;
  useEffect(() => {
    if (title !== undefined) keepLastPlace(me.id, { path: paths.lesson(releaseId), title });
  }, [me.id, releaseId, title]);
  if (release === undefined) {
    return (
      <PageFrame title="A lesson">
        <Wait>Fetching the lesson…</Wait>
      </PageFrame>
    );
  }
  const place = course === undefined ? null : <WordLink to={paths.course(course.id)}>{course.title}</WordLink>;
  return (
    <PageFrame title={release.content.title} place={place} end={<span>{me.name}</span>}>
      <LessonReader content={release.content} practice={practice} ownMixes={ownMixes} />
      {practice.trouble === null ? null : (
        <Notice kind="trouble">Your last mark was not kept. {plainWords(practice.trouble)}</Notice>
      )}
      <OwnWalk steps={release.content.steps} practice={practice} />
      <nav className={styles.onward} aria-label="Lessons before and after">
        {release.previous === null ? (
          <span />
        ) : (
          <WordLink to={paths.lesson(release.previous.id)}>Before: {release.previous.title}</WordLink>
        )}
        {release.next === null ? (
          <span />
        ) : (
          <WordLink to={paths.lesson(release.next.id)}>Next: {release.next.title}</WordLink>
        )}
      </nav>
      <details className={styles.care}>
        <summary>Take care of your ears, voice and hands</summary>
        <p>
          Begin quietly, and keep headphones at a level that stays comfortable. Stop and rest when listening, singing or
          playing hurts; when it does not pass, ask a doctor. Local rules, and what a doctor or licensed therapist tells
          you, come before anything written here.
        </p>
      </details>
    </PageFrame>
  );
}
