import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { releaseLesson, type LessonDetail } from '../../lib/api/lessons.ts';
import { plainWords } from '../../lib/api/problem.ts';
import { queries } from '../../lib/api/queries.ts';
import { paths } from '../../lib/paths.ts';
import { FilledButton, WordLink } from '../../ui/buttons.tsx';
import { Slip } from '../../ui/dialog.tsx';
import { Notice } from '../../ui/notice.tsx';
import type { DraftKeeper } from './draft-keeper.ts';
import styles from './editor.module.css';

interface ReleaseProps {
  readonly lesson: LessonDetail;
  readonly keeper: DraftKeeper;
  readonly courseId: string;
}

/** Freezes the lesson as it stands and gives it to the students. */
export function Release({ lesson, keeper, courseId }: ReleaseProps) {
  const [isOpen, setOpen] = useState(false);
  const cache = useQueryClient();
  const releasing = useMutation({
    mutationFn: async () => {
      await keeper.settle();
      return releaseLesson(lesson.id);
    },
    onSuccess: async () => {
      setOpen(false);
      await cache.invalidateQueries({ queryKey: queries.course(courseId).queryKey });
    },
  });
  const latest = releasing.data ?? lesson.latestRelease;
  return (
    <div className={styles.release}>
      {latest === null ? (
        <span className={styles.quiet}>not released yet</span>
      ) : (
        <WordLink to={paths.lesson(latest.id)}>Release {latest.number}, as students have it</WordLink>
      )}
      <FilledButton onPress={() => setOpen(true)}>{latest === null ? 'Release' : 'Release again'}</FilledButton>
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
