import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { useNavigate } from 'react-router';
import { startCourse } from '../../lib/api/courses.ts';
import { plainWords } from '../../lib/api/problem.ts';
import { queries } from '../../lib/api/queries.ts';
import { paths } from '../../lib/paths.ts';
import { EdgeButton, FilledButton } from '../../ui/buttons.tsx';
import { Slip } from '../../ui/dialog.tsx';
import { Field } from '../../ui/field.tsx';
import { Form } from '../../ui/form.tsx';
import { Notice } from '../../ui/notice.tsx';
import { CodeForm } from './code-form.tsx';
import styles from './shelf.module.css';

interface EmptySlotProps {
  readonly hasCourses: boolean;
}

/** Room on the shelf: start a course, or join one by a code. */
export function EmptySlot({ hasCourses }: EmptySlotProps) {
  const [isOpen, setOpen] = useState(false);
  const [title, setTitle] = useState('');
  const [summary, setSummary] = useState('');
  const navigate = useNavigate();
  const cache = useQueryClient();
  const starting = useMutation({
    mutationFn: () => startCourse({ title, summary }),
    onSuccess: async (course) => {
      await cache.invalidateQueries({ queryKey: queries.shelf().queryKey });
      await navigate(paths.course(course.id));
    },
  });
  return (
    <li className={styles.place}>
      <div className={styles.slot}>
        <h2>{hasCourses ? 'Another course' : 'Your first course'}</h2>
        <p>Room for songs, lessons and the people you teach.</p>
        <EdgeButton onPress={() => setOpen(true)}>Start a course</EdgeButton>
        <CodeForm />
      </div>
      <Slip title="Start a course" isOpen={isOpen} onClose={() => setOpen(false)}>
        <Form onSend={() => starting.mutate()}>
          <Field label="Its name" value={title} onChange={setTitle} isRequired autoFocus maxLength={120} />
          <Field
            label="What it is about"
            hint="One sentence for the people in it. You can leave it out."
            value={summary}
            onChange={setSummary}
            rows={2}
            maxLength={500}
          />
          {starting.isError ? <Notice kind="trouble">{plainWords(starting.error)}</Notice> : null}
          <FilledButton type="submit" isDisabled={starting.isPending}>
            Start it
          </FilledButton>
        </Form>
      </Slip>
    </li>
  );
}
