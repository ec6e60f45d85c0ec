import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { releaseLesson, type LessonDetail, type LessonText } from '../../lib/api/lessons.ts';
import { plainWords } from '../../lib/api/problem.ts';
import { queries } from '../../lib/api/queries.ts';
import { paths } from '../../lib/paths.ts';
import { EdgeButton, FilledButton, WordLink } from '../../ui/buttons.tsx';
import { Slip } from '../../ui/dialog.tsx';
import { Notice } from '../../ui/notice.tsx';
import type { DraftKeeper } from './draft-keeper.ts';
import styles from './editor.module.css';
import { hasNews } from './release-news.ts';

interface ReleaseProps {
  readonly lesson: LessonDetail;
  readonly keeper: DraftKeeper;
  readonly text: LessonText;
  readonly courseId: string;
}

/** Freezes the lesson as it stands and gives it to the students; the next thing to do only where they would get something new. */
export function Release({ lesson, keeper, text, courseId }: ReleaseProps) {
  const [isOpen, setOpen] = useState(false);
  const cache = useQueryClient();
  const releasing = useMutation({
    mutationFn: async () => {
      await keeper.settle();
      return releaseLesson(lesson.id);
    },
    onSuccess: async () => {
      await Promise.all([
        cache.invalidateQueries({ queryKey: queries.lesson(lesson.id).queryKey }),
        cache.invalidateQueries({ queryKey: queries.course(courseId).queryKey }),
      ]);
      setOpen(false);
    },
  });
  const latest = lesson.latestRelease;
  const isNew = hasNews(lesson, text);
  const Open = isNew ? FilledButton : EdgeButton;
  return (
    <div className={styles.release}>
      {latest === null ? (
        <span className={styles.quiet}>not released yet</span>
      ) : (
        <>
          <span className={styles.quiet}>
            {isNew ? 'changed since the last release' : 'released, nothing changed since'}
          </span>
          <WordLink to={paths.lesson(latest.id)}>Release {latest.number}, as students have it</WordLink>
        </>
      )}
      <Open onPress={() => setOpen(true)}>{latest === null ? 'Release' : 'Release again'}</Open>
      <Slip title="Release this lesson" isOpen={isOpen} onClose={() => setOpen(false)}>
        <p>
          The lesson is frozen as it is now, with the score and the split of this moment. Students see this release;
          what you change later reaches them with the next one.
        </p>
        {releasing.isError ? <Notice kind="trouble">{plainWords(releasing.error)}</Notice> : null}
        <FilledButton onPress={() => releasing.mutate()} isDisabled={releasing.isPending}>
          Release it
        </FilledButton>
      </Slip>
    </div>
  );
}
